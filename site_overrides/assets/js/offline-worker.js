/**
 * The service worker, published as `sw.js` with `const BUILD = {id, assets, data, several, made, most}` in front of it.
 *
 * What it promises:
 *   - With a network a page always comes from the network: ride advice may have changed. Without one, or where it takes
 *     too long, the page that was kept is shown, with the day on which it was kept.
 *   - Only pages of this worker's own build are kept: each page carries its build's id. So whatever is shown without a
 *     network is of one build.
 *   - A new build's worker first fetches all that the old one kept, pages and finder data. If anything does not come, or
 *     comes from yet another build, it gives up, and the old one stays as it was. Then it takes over at once.
 *   - Files whose address says their content outlive their build by one, for pages that are still open.
 */

const SCOPE = new URL(self.registration.scope);
const PREFIX = `lore:${SCOPE.pathname}:`;
const PAGES = `${PREFIX}pages-${BUILD.id}`;
const FILES = `${PREFIX}files-${BUILD.id}`;
const RECORDS = `${PREFIX}records`;
const KEPT_ON = "x-kept-on";
const LIST = `build/${BUILD.id}.json`;
const ALWAYS = ["", "codes/", "several/", "my-bike/"];
const MOST_VISITED = 150;
const AT_ONCE = 6;
/** A network that takes longer is none, where the page was kept. */
const PATIENCE = 4000;

self.addEventListener("install", (event) => event.waitUntil(install()));
self.addEventListener("activate", (event) => event.waitUntil(activate()));
self.addEventListener("message", (event) => event.waitUntil(answer(event)));
self.addEventListener("fetch", (event) => {
  const url = new URL(event.request.url);
  const isOurs = url.origin === SCOPE.origin && url.pathname.startsWith(SCOPE.pathname);
  if (event.request.method !== "GET" || !isOurs) {
    return;
  }
  const path = url.pathname.slice(SCOPE.pathname.length);
  if (event.request.mode === "navigate") {
    event.respondWith(page(event, path));
  } else if (/^(?:assets|data|build)\//.test(path)) {
    event.respondWith(file(event.request, path));
  }
});

const at = (path) => new URL(path, SCOPE).href;

// Installing

async function install() {
  await Promise.all([caches.delete(PAGES), caches.delete(FILES)]);
  try {
    await keepFiles();
    const bike = await record("bike");
    const paths = new Set([...ALWAYS, ...(await openPages()), ...(await visitedPages())]);
    const own = bike ? await bikePages(bike) : [];
    own.forEach((path) => paths.add(path));
    const bytes = new Map();
    await each([...paths], async (path) => bytes.set(path, await keepPage(path)));
    if (bike) {
      const sum = own.reduce((all, path) => all + (bytes.get(path) ?? 0), 0);
      await setRecord("bike-next", { ...bike, pages: own, bytes: sum, on: today(), build: BUILD.id });
    } else {
      await setRecord("bike-next", null);
    }
  } catch (error) {
    await Promise.all([caches.delete(PAGES), caches.delete(FILES)]);
    throw error;
  }
  await self.skipWaiting();
}

async function activate() {
  const next = await record("bike-next");
  // Dropped or chosen anew while this worker was fetching: then what the owner said last holds.
  const now = await record("bike");
  if (next && now && next.model === now.model && next.year === now.year && now.build !== BUILD.id) {
    await setRecord("bike", next);
  }
  const before = await record("active");
  const kept = new Set([PAGES, FILES, RECORDS, before && `${PREFIX}files-${before}`]);
  const names = (await caches.keys()).filter((name) => name.startsWith(PREFIX) && !kept.has(name));
  await Promise.all(names.map((name) => caches.delete(name)));
  await setRecord("active", BUILD.id);
  await self.clients.claim();
}

/** The styles and scripts, and the finder's data unless there is too much of it. */
async function keepFiles() {
  const list = await fetched(LIST, { cache: "no-cache" });
  const { id, files } = await list.clone().json();
  if (id !== BUILD.id) {
    throw new Error(`the list is of build ${id}`);
  }
  const cache = await caches.open(FILES);
  await cache.put(at(LIST), list);
  const older = await olderFiles();
  await each(files.filter(await isWanted(files)), async ([path, , hash]) => {
    await cache.put(at(path), (await older(hash)) ?? (await checked(path, hash)));
  });
}

async function isWanted(files) {
  const isData = ([path]) => path.startsWith("data/");
  const size = files.filter(isData).reduce((sum, [, bytes]) => sum + bytes, 0);
  const isSparing = Boolean(self.navigator.connection?.saveData);
  const all = (size <= BUILD.most && !isSparing) || Boolean(await record("bike"));
  return (file) => all || !isData(file) || file[0] === `${BUILD.data}root.json`;
}

/** By its hash a file that an earlier build's worker kept, so that it need not be fetched again. */
async function olderFiles() {
  const known = new Map();
  for (const name of await caches.keys()) {
    if (name.startsWith(`${PREFIX}files-`) && name !== FILES) {
      const cache = await caches.open(name);
      const list = await cache.match(at(`build/${name.slice(`${PREFIX}files-`.length)}.json`));
      const { files } = list ? await list.json() : { files: [] };
      files.forEach(([path, , hash]) => known.set(hash, [cache, path]));
    }
  }
  return async (hash) => {
    const [cache, path] = known.get(hash) ?? [];
    return (await cache?.match(at(path))) ?? null;
  };
}

/** A file from the network, if it is the one that the list means. */
async function checked(path, hash) {
  const response = await fetched(path, {});
  const digest = await crypto.subtle.digest("SHA-256", await response.clone().arrayBuffer());
  const found = Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, "0")).join("");
  if (!found.startsWith(hash)) {
    throw new Error(`${path} is not the file of build ${BUILD.id}`);
  }
  return response;
}

async function fetched(path, options) {
  const response = await fetch(at(path), options);
  if (!response.ok) {
    throw new Error(`${path}: ${response.status}`);
  }
  return response;
}

async function openPages() {
  const clients = await self.clients.matchAll({ type: "window", includeUncontrolled: true });
  const paths = clients.map(({ url }) => new URL(url).pathname);
  return paths.filter((path) => path.startsWith(SCOPE.pathname)).map((path) => path.slice(SCOPE.pathname.length));
}

/** Pages that an earlier build's worker kept, the latest first, and not without end. */
async function visitedPages() {
  const names = (await caches.keys()).filter((name) => name.startsWith(`${PREFIX}pages-`) && name !== PAGES);
  const found = [];
  for (const name of names) {
    const cache = await caches.open(name);
    for (const request of await cache.keys()) {
      const kept = await cache.match(request);
      found.push([kept.headers.get(KEPT_ON) ?? "", new URL(request.url).pathname.slice(SCOPE.pathname.length)]);
    }
  }
  found.sort(([one], [two]) => (one < two ? 1 : -1));
  return found.slice(0, MOST_VISITED).map(([, path]) => path);
}

/** Runs the work for all of them, a few at once; fails with the first that fails. */
async function each(all, work) {
  const left = [...all];
  const runner = async () => {
    while (left.length) {
      await work(left.shift());
    }
  };
  await Promise.all(Array.from({ length: AT_ONCE }, runner));
}

// Pages

const today = () => new Date().toISOString();

/** Fetches a page and keeps it; gives its size, 0 where there is none any more. Fails if it is of another build. */
async function keepPage(path) {
  const response = await fetch(at(path), { cache: "no-cache" });
  if (response.status === 404) {
    return 0;
  }
  if (!response.ok) {
    throw new Error(`${path}: ${response.status}`);
  }
  const text = await response.text();
  if (!isOfThisBuild(text)) {
    throw new Error(`${path} is of another build`);
  }
  await putPage(path, text);
  return new Blob([text]).size;
}

function isOfThisBuild(html) {
  return html.includes(`<meta name="build" content="${BUILD.id}">`);
}

async function putPage(path, text) {
  const headers = { "content-type": "text/html; charset=utf-8", [KEPT_ON]: today() };
  await (await caches.open(PAGES)).put(at(path), new Response(text, { headers }));
}

async function page(event, path) {
  const kept = await (await caches.open(PAGES)).match(at(path));
  // Asked for anew: else a browser may take a page from its own store for hours, and nobody would say how old it is.
  const coming = fetch(event.request.url, { cache: "no-cache", credentials: "same-origin", redirect: "manual" });
  try {
    const response = await (kept ? Promise.race([coming, tooLate()]) : coming);
    event.waitUntil(keepVisited(path, response.clone()));
    return response;
  } catch {
    coming.catch(() => {});
    return kept ? withDay(kept) : notKept();
  }
}

function tooLate() {
  return new Promise((_, reject) => {
    setTimeout(() => reject(new Error("too late")), PATIENCE);
  });
}

async function keepVisited(path, response) {
  if (!response.ok || !/^text\/html/.test(response.headers.get("content-type") ?? "")) {
    return;
  }
  const text = await response.text();
  if (isOfThisBuild(text)) {
    await putPage(path, text);
  } else {
    await self.registration.update();
  }
}

/** The page says on which day it was kept. */
async function withDay(kept) {
  const day = (kept.headers.get(KEPT_ON) ?? "").slice(0, 10).replace(/[^0-9-]/g, "");
  const text = (await kept.text()).replace(/<html\b/, `<html data-kept="${day}"`);
  return new Response(text, { headers: { "content-type": "text/html; charset=utf-8" } });
}

function notKept() {
  const sheets = ["tokens", "base", "shell"].map((name) => `<link rel="stylesheet" href="${at(`${BUILD.assets}css/${name}.css`)}">`);
  const text = `<!doctype html><html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><title>No network</title>${sheets.join("")}</head><body><div class="sheet"><main class="content prose"><h1>No network</h1><p>This page was not kept on this device. Without a network these are: <a href="${at("")}">the finder</a>, <a href="${at("my-bike/")}">my bike</a> and the pages that you have opened before.</p><p>Whether you may ride is not known from here.</p></main></div></body></html>`;
  return new Response(text, { status: 503, headers: { "content-type": "text/html; charset=utf-8" } });
}

// Files

async function file(request, path) {
  for (const name of await caches.keys()) {
    if (name.startsWith(`${PREFIX}files-`)) {
      const kept = await (await caches.open(name)).match(at(path));
      if (kept) {
        return kept;
      }
    }
  }
  const response = await fetch(request);
  // Their addresses say their content, so they may be kept beside any build.
  if (response.ok && !path.startsWith("build/")) {
    await (await caches.open(FILES)).put(at(path), response.clone());
  }
  return response;
}

// My bike

/** What a page asks: {do: "tell" | "keep" | "drop", bike}; answers, the last with `done`, go to the port it sent. */
async function answer({ data, ports: [port] }) {
  const say = (what) => port?.postMessage(what);
  try {
    if (data.do === "keep") {
      await keepBike(data.bike, say);
    } else if (data.do === "drop") {
      await dropBike();
    }
    say({ done: true, bike: await record("bike") });
  } catch (error) {
    say({ done: true, failed: String(error.message), bike: await record("bike") });
    await self.registration.update().catch(() => {});
  }
}

async function keepBike({ model, year, name }, say) {
  const pages = await bikePages({ model, year });
  const list = await (await stored(LIST)).json();
  let done = 0;
  let bytes = 0;
  const files = list.files.filter(([path]) => path.startsWith("data/"));
  const all = pages.length + files.length;
  const step = (size) => {
    done += 1;
    bytes += size;
    say({ of: all, kept: done, bytes });
  };
  await each(files, async ([path, size]) => {
    await stored(path);
    step(size);
  });
  await each(pages, async (path) => step(await keepPage(path)));
  await setRecord("bike", { model, year, name, pages, bytes, on: today(), build: BUILD.id });
}

async function dropBike() {
  const bike = await record("bike");
  const cache = await caches.open(PAGES);
  await Promise.all((bike?.pages ?? []).filter((path) => !ALWAYS.includes(path)).map((path) => cache.delete(at(path))));
  await setRecord("bike", null);
}

/** A file of this build, kept from now on. */
async function stored(path) {
  return (await (await caches.open(FILES)).match(at(path))) ?? file(new Request(at(path)), path).then(whole);
}

function whole(response) {
  if (!response.ok) {
    throw new Error(`${response.url}: ${response.status}`);
  }
  return response;
}

/** Addresses of all pages about a machine: its model and year, its faults, codes and their systems' pages. */
async function bikePages({ model, year }) {
  const root = await (await stored(`${BUILD.data}root.json`)).json();
  const known = root.models.find(({ id, first, last }) => id === model && first <= year && year <= last);
  if (!known) {
    return [];
  }
  let place = 0;
  const steps = await (await stored(`${BUILD.data}bikes/${model}/${year}.json`)).json();
  const places = steps.map((step) => (place += step));
  const shelves = new Set(places.map((each_) => Math.floor(each_ / root.per_file)));
  const entries = new Map();
  await each([...shelves], async (number) => {
    entries.set(number, await (await stored(`${BUILD.data}entries/${number}.json`)).json());
  });
  const own = places.map((each_) => entries.get(Math.floor(each_ / root.per_file))[each_ % root.per_file].address);
  return [...new Set([...ALWAYS, "models/", known.address, `${known.address}${year}/`, ...own])];
}

// Records: what must outlive a build

async function record(name) {
  const kept = await (await caches.open(RECORDS)).match(at(`records/${name}`));
  return kept ? kept.json() : null;
}

async function setRecord(name, value) {
  await (await caches.open(RECORDS)).put(at(`records/${name}`), new Response(JSON.stringify(value)));
}
