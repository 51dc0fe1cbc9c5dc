/** Part of the service worker: pages, from the network while there is one, and kept for when there is none. */

const KEPT_ON = "x-kept-on";
const MOST_VISITED = 150;

/** Answers a visit. */
async function page(event, path) {
  const kept = await quietly(() => keptPage(path));
  // Asked for anew: else a browser may take a page from its own store for hours, and nobody would say how old it is.
  const options = { cache: "no-cache", credentials: "same-origin", redirect: "manual" };
  try {
    return await (kept ? wholePage : anyPage)(event, path, options);
  } catch {
    return (kept && (await quietly(() => withDay(kept)))) ?? notKept();
  }
}

/** The page from the network; fails where the kept one is better: what is shown can no longer be taken back. */
async function wholePage(event, path, options) {
  const { response, bytes } = await whole(event.request.url, options, PATIENCE);
  const isCutOff = response.ok && isHtml(response) && !isWhole(textOf(bytes));
  if (response.status >= 500 || isCutOff) {
    throw new Error(`${path}: ${response.status}`);
  }
  event.waitUntil(quietly(() => keepVisited(path, response, bytes)));
  return response;
}

/** The page from the network, shown while it comes. */
async function anyPage(event, path, options) {
  const response = await fetch(event.request.url, options);
  const copy = response.clone();
  event.waitUntil(quietly(async () => keepVisited(path, response, await bytesOf(copy, LONG_PATIENCE))));
  return response;
}

async function keepVisited(path, response, bytes) {
  if (!response.ok || !isHtml(response)) {
    return;
  }
  const text = textOf(bytes);
  if (!isOfThisBuild(text)) {
    await self.registration.update();
  } else if (isWhole(text)) {
    await putPage(path, text);
  }
}

/**
 * Fetches a page and keeps it with its pictures; gives their size. Fails if it is not whole or of another build.
 *
 * A page that was only visited may be gone with the new build: its size is 0. One that this build has must come.
 */
async function keepPage(path, isSure) {
  const { response, bytes } = await whole(at(path), { cache: "no-cache" }, LONG_PATIENCE);
  if (response.status === 404 && !isSure) {
    return 0;
  }
  const text = textOf(bytes);
  if (!response.ok || !isOfThisBuild(text) || !isWhole(text)) {
    throw new Error(`${path} did not come as a page of build ${BUILD.id}: ${response.status}`);
  }
  await putPage(path, text);
  return bytes.byteLength + (await keepPictures(text));
}

async function putPage(path, text) {
  const headers = { "content-type": "text/html; charset=utf-8", [KEPT_ON]: today() };
  await (await caches.open(PAGES)).put(at(path), new Response(text, { headers }));
}

async function keptPage(path) {
  return (await caches.open(PAGES)).match(at(path));
}

/** Pages that an earlier build's worker kept, the latest first, and not without end. */
async function visitedPages() {
  const names = (await caches.keys()).filter((name) => name.startsWith(`${PREFIX}pages-`) && name !== PAGES);
  const found = [];
  for (const name of names) {
    const cache = await caches.open(name);
    for (const request of await cache.keys()) {
      const kept = /** @type {Response} */ (await cache.match(request));
      found.push([kept.headers.get(KEPT_ON) ?? "", new URL(request.url).pathname.slice(SCOPE.pathname.length)]);
    }
  }
  found.sort(([one], [two]) => (one < two ? 1 : -1));
  return found.slice(0, MOST_VISITED).map(([, path]) => path);
}

/** The page says on which day it was kept. */
async function withDay(kept) {
  const day = (kept.headers.get(KEPT_ON) ?? "").slice(0, 10).replace(/[^0-9-]/g, "");
  const text = (await kept.text()).replace(/<html\b/, `<html data-kept="${day}"`);
  return new Response(text, { headers: { "content-type": "text/html; charset=utf-8" } });
}

function notKept() {
  const styles = ["tokens", "base", "shell"].map((name) => at(`${BUILD.assets}css/${name}.css`));
  const sheets = styles.map((address) => `<link rel="stylesheet" href="${address}">`);
  const text = `<!doctype html><html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><title>No network</title>${sheets.join("")}</head><body><div class="sheet"><main class="content prose"><h1>No network</h1><p>This page was not kept on this device. Without a network these are: <a href="${at("")}">the finder</a>, <a href="${at("my-bike/")}">my bike</a> and the pages that you have opened before.</p><p>Whether you may ride is not known from here.</p></main></div></body></html>`;
  return new Response(text, { status: 503, headers: { "content-type": "text/html; charset=utf-8" } });
}
