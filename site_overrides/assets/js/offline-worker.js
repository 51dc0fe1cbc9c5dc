/**
 * The service worker, published as `sw.js` with `const BUILD = {id, assets, data, several, made, most}` in front of it and the
 * other `offline-*.js` parts behind it: answers (what is whole), files, pages, bike.
 *
 * What it promises:
 *   - With a network a page always comes from the network: ride advice may have changed. Without one, where it takes too
 *     long, breaks off or fails, the page that was kept is shown, with the day on which it was kept.
 *   - Only whole answers are kept: pages of this worker's own build up to their last line, and files that are what the
 *     build's list says they are. So whatever is shown without a network is of one build.
 *   - A new build's worker first fetches all that the old one kept, pages and finder data. If anything does not come, or
 *     comes from yet another build, it gives up, and the old one stays as it was. Then it takes over at once.
 *   - Files whose address says their content outlive their build by one, for pages that are still open.
 *   - Where storage is full or forbidden nothing is kept, and what comes from the network is shown all the same.
 */

const SCOPE = new URL(self.registration.scope);
const PREFIX = `lore:${SCOPE.pathname}:`;
const PAGES = `${PREFIX}pages-${BUILD.id}`;
const FILES = `${PREFIX}files-${BUILD.id}`;
const RECORDS = `${PREFIX}records`;
const ALWAYS = ["", "codes/", "my-bike/", "report/", "several/"];
const AT_ONCE = 6;

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
  } else if (/^faults\/[^/]+\/$/.test(path)) {
    // A plan of several faults fetches their pages.
    event.respondWith(page(event, path));
  } else if (/^(?:assets|data|build)\//.test(path)) {
    event.respondWith(file(event, path));
  } else if (isPicture([path])) {
    event.respondWith(picture(event, path));
  }
});

const at = (path) => new URL(path, SCOPE).href;
const today = () => new Date().toISOString();

// Installing

async function install() {
  await Promise.all([caches.delete(PAGES), caches.delete(FILES)]);
  try {
    await keepFiles();
    const bike = await record("bike");
    const own = bike ? await bikePages(bike) : [];
    const paths = new Set([...ALWAYS, ...(await openPages()), ...(await visitedPages()), ...own]);
    const bytes = new Map();
    await each([...paths], async (path) => bytes.set(path, await keepPage(path, own.includes(path))));
    if (bike) {
      const sum = own.reduce((all, path) => all + bytes.get(path), 0);
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
  // Each by itself: where storage is full, the old build must still make room, and the pages still get their worker.
  await quietly(takeBike);
  await quietly(dropOlder);
  await quietly(() => setRecord("active", BUILD.id));
  await self.clients.claim();
}

async function takeBike() {
  const next = await record("bike-next");
  // Dropped or chosen anew while this worker was fetching: then what the owner said last holds.
  const now = await record("bike");
  if (next && now && next.model === now.model && next.year === now.year && now.build !== BUILD.id) {
    await setRecord("bike", next);
  }
}

async function dropOlder() {
  const before = await record("active");
  const kept = new Set([PAGES, FILES, RECORDS, before && `${PREFIX}files-${before}`]);
  const names = (await caches.keys()).filter((name) => name.startsWith(PREFIX) && !kept.has(name));
  await Promise.all(names.map((name) => caches.delete(name)));
}

async function openPages() {
  const clients = await self.clients.matchAll({ type: "window", includeUncontrolled: true });
  const paths = clients.map(({ url }) => new URL(url).pathname);
  return paths.filter((path) => path.startsWith(SCOPE.pathname)).map((path) => path.slice(SCOPE.pathname.length));
}

/** Runs the work for all of them, a few at once; fails with the first that fails, once nothing runs any more. */
async function each(all, work) {
  const left = [...all];
  const runner = async () => {
    try {
      while (left.length) {
        await work(left.shift());
      }
    } catch (error) {
      left.length = 0;
      throw error;
    }
  };
  const ends = await Promise.allSettled(Array.from({ length: AT_ONCE }, runner));
  const failed = /** @type {PromiseRejectedResult | undefined} */ (ends.find(({ status }) => status === "rejected"));
  if (failed) {
    throw failed.reason;
  }
}

// Records: what must outlive a build

async function record(name) {
  const kept = await (await caches.open(RECORDS)).match(at(`records/${name}`));
  return kept ? kept.json() : null;
}

async function setRecord(name, value) {
  await (await caches.open(RECORDS)).put(at(`records/${name}`), new Response(JSON.stringify(value)));
}
