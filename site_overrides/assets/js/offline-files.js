/** Part of the service worker: styles, scripts, the finder's data and that of several codes. The build's list says what each of them is. */

const LIST = `build/${BUILD.id}.json`;

/** @type {?BuildFile[]} */
let rows = null;

/** The files of this build, each [address, bytes, first digits of its SHA-256]. */
async function listed() {
  rows ??= await readList();
  return rows;
}

/** @returns {Promise<BuildFile[]>} */
async function readList() {
  const cache = await caches.open(FILES);
  const kept = await cache.match(at(LIST));
  const text = kept ? await kept.text() : textOf((await whole(at(LIST), { cache: "no-cache" }, LONG_PATIENCE)).bytes);
  const { id, files } = JSON.parse(text);
  if (id !== BUILD.id) {
    throw new Error(`the list is of build ${id}`);
  }
  if (!kept) {
    await cache.put(at(LIST), new Response(text, { headers: { "content-type": "application/json" } }));
  }
  return files;
}

async function rowOf(path) {
  const row = (await listed()).find(([address]) => address === path);
  if (!row) {
    throw new Error(`${path} is no file of build ${BUILD.id}`);
  }
  return row;
}

/** The styles and scripts, and the finder's data unless there is too much of it. */
async function keepFiles() {
  const files = await listed();
  const older = await olderFiles();
  await each(files.filter(await isWanted(files)), async (row) => putFile(row, (await older(row)) ?? (await rightFile(row))));
}

async function isWanted(files) {
  const size = files.filter(isData).reduce((sum, [, bytes]) => sum + bytes, 0);
  const isSparing = Boolean(self.navigator.connection?.saveData);
  const all = (size <= BUILD.most && !isSparing) || Boolean(await record("bike"));
  // Pictures come with the pages that show them.
  return (file) => !isPicture(file) && (all || !isData(file) || file[0].endsWith("/root.json"));
}

/** By its row a file that an earlier build's worker kept, so that it need not be fetched again. */
async function olderFiles() {
  const places = new Map();
  for (const name of await caches.keys()) {
    if (name.startsWith(`${PREFIX}files-`) && name !== FILES) {
      const cache = await caches.open(name);
      const build = name.slice(`${PREFIX}files-`.length);
      const list = await cache.match(at(`build/${build}.json`));
      const { files } = list ? await list.json() : { files: [] };
      files.forEach(([path, , hash]) => places.set(hash, [cache, path]));
    }
  }
  return async (row) => {
    const [cache, path] = places.get(row[2]) ?? [];
    const kept = await cache?.match(at(path));
    // Looked at again: else a file that went wrong once would be handed on from build to build.
    return kept ? checked(kept, await kept.clone().arrayBuffer(), row) : null;
  };
}

/** The file of this row from the network; asked for again, past the browser's own store, if another one came. */
async function rightFile(row) {
  const found = (await asked(row, "default")) ?? (await asked(row, "reload"));
  if (!found) {
    throw new Error(`${row[0]} did not come as the file of build ${BUILD.id}`);
  }
  return found;
}

function asked(row, cache) {
  return quietly(async () => {
    const { response, bytes } = await whole(at(row[0]), { cache }, LONG_PATIENCE);
    return checked(response, bytes, row);
  });
}

/** An answer as it is kept, null if it is not the file of this row. */
async function checked(response, bytes, row) {
  if (!(await isRight(response, bytes, row))) {
    return null;
  }
  const type = response.headers.get("content-type");
  return new Response(bytes, { headers: type ? { "content-type": type } : {} });
}

/** @param {BuildFile} row @param {Response} response */
async function putFile([path], response) {
  await (await caches.open(FILES)).put(at(path), response);
}

/** A file of this build, kept from now on. */
async function stored(path) {
  const kept = await (await caches.open(FILES)).match(at(path));
  if (kept) {
    return kept;
  }
  const row = await rowOf(path);
  const found = await rightFile(row);
  await putFile(row, found.clone());
  return found;
}

/** Answers a page's request for a file. */
async function file(event, path) {
  const kept = await quietly(() => keptFile(path));
  if (kept) {
    return kept;
  }
  const response = await fetch(event.request);
  const row = response.ok && isOwn(path) ? await quietly(() => rowOf(path)) : null;
  if (!row) {
    return response;
  }
  const copy = response.clone();
  const first = await quietly(async () => checked(response, await bytesOf(copy, PATIENCE), row));
  const found = first ?? (await asked(row, "reload"));
  if (!found) {
    // As without a worker: what came is the page's own to judge.
    return response;
  }
  response.body?.cancel().catch(() => {});
  const keeping = found.clone();
  event.waitUntil(quietly(() => putFile(row, keeping)));
  return found;
}

const isOwn = (path) => path.startsWith(BUILD.assets) || isData([path]);

/** @param {[path: string, ...unknown[]]} row */
function isData([path]) {
  return path.startsWith(BUILD.data) || path.startsWith(BUILD.several);
}

/** @param {[path: string, ...unknown[]]} row */
function isPicture([path]) {
  return path.startsWith("pictures/");
}

/** A picture in the width that the browser chose; without a network in the narrow one, if its page was kept or it was seen. */
async function picture(event, path) {
  try {
    const response = await fetch(event.request);
    if (response.ok) {
      event.waitUntil(quietly(async () => stored(await narrowOf(path))));
    }
    return response;
  } catch (error) {
    const kept = await quietly(async () => keptFile(await narrowOf(path)));
    if (kept) {
      return kept;
    }
    throw error;
  }
}

/** The list has one width of each picture. */
async function narrowOf(path) {
  const name = path.slice(path.lastIndexOf("/"));
  const row = (await listed()).find((each_) => isPicture(each_) && each_[0].endsWith(name));
  if (!row) {
    throw new Error(`${path} is no picture of build ${BUILD.id}`);
  }
  return row[0];
}

/** Keeps what a page shows, as far as it comes: a page is worth keeping without. Gives the bytes. */
async function keepPictures(text) {
  const paths = new Set([...text.matchAll(/<img src="[./]*(pictures\/[^"]+)"/g)].map(([, path]) => path));
  let bytes = 0;
  for (const path of paths) {
    await quietly(async () => {
      const [, size] = await rowOf(path);
      await stored(path);
      bytes += size;
    });
  }
  return bytes;
}

/** This build's own first: an address may be the same in both, and only this one's files were held to the list for sure. */
async function keptFile(path) {
  const others = (await caches.keys()).filter((name) => name.startsWith(`${PREFIX}files-`) && name !== FILES);
  for (const name of [FILES, ...others]) {
    const kept = await (await caches.open(name)).match(at(path));
    if (kept) {
      return kept;
    }
  }
  return null;
}
