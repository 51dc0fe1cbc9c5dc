/** Part of the service worker: my bike, kept for the road, and what a page may ask about it. */

/**
 * What a page asks: {do: "tell" | "keep" | "drop", bike}; answers, the last with `done`, go to the port it sent.
 * @param {ExtendableMessageEvent} event
 */
async function answer({ data, ports: [port] }) {
  const say = (what) => port?.postMessage(what);
  // Said in any case: the page waits for it.
  const end = async (more) => say({ done: true, ...more, bike: await quietly(() => record("bike")) });
  try {
    if (data.do === "keep") {
      await keepBike(data.bike, say);
    } else if (data.do === "drop") {
      await dropBike();
    }
    await end({});
  } catch (error) {
    await end({ failed: String(error.message) });
    await quietly(() => self.registration.update());
  }
}

async function keepBike({ model, year, name }, say) {
  const pages = await bikePages({ model, year });
  const files = (await listed()).filter(isData);
  let done = 0;
  let bytes = 0;
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
  await each(pages, async (path) => step(await keepPage(path, true)));
  await setRecord("bike", { model, year, name, pages, bytes, on: today(), build: BUILD.id });
}

async function dropBike() {
  const bike = await record("bike");
  const cache = await caches.open(PAGES);
  await Promise.all((bike?.pages ?? []).filter((path) => !ALWAYS.includes(path)).map((path) => cache.delete(at(path))));
  await setRecord("bike", null);
}

/** Addresses of all pages about a machine: its model and year, its handbook, faults and codes. */
async function bikePages({ model, year }) {
  const root = await (await stored(`${BUILD.data}root.json`)).json();
  const machine = root.models.find(({ id, first, last }) => id === model && first <= year && year <= last);
  if (!machine) {
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
  const ofYear = `${machine.address}${year}/`;
  return [...new Set([...ALWAYS, "models/", machine.address, ofYear, `${ofYear}handbook/`, ...own])];
}
