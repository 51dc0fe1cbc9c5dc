// What the page my-bike.js asks the service worker offline-worker.js, and what it says.

type Question = { do: "tell" | "drop" } | { do: "keep"; bike: MyBike | null };

interface Progress {
  /** Files and pages, in all and so far. */
  of: number;
  kept: number;
  bytes: number;
  done?: undefined;
}

interface LastWord {
  done: true;
  bike: KeptBike | null;
  /** Why not everything arrived. */
  failed?: string;
}

interface KeptBike extends MyBike {
  /** Addresses. */
  pages: string[];
  bytes: number;
  /** When it was kept, as ISO 8601 has it. */
  on: string;
  build: string;
}

/** The machine that this browser remembers. */
interface MyBike {
  model: string;
  year: number;
  name: string;
  /** Of the `OwnBike` that it is; absent where nothing was kept of it. */
  id?: string;
}
