/**
 * "I saw this today", on the page of a fault, of a code or of several, and "it is mended" at the end of a plan. What it
 * does is `history-keep.js`, which is fetched when it is asked for.
 */

const seen = document.querySelector("[data-seen]");
seen?.querySelector("button")?.addEventListener("click", async () => {
  const { see } = await import("./history-keep.js");
  see(seen);
});

document.addEventListener("planchange", async ({ detail }) => {
  // The first time, the panel is not in the page yet.
  await null;
  const place = document.querySelector("[data-history-mended]");
  if (place && detail) {
    const { offerMended } = await import("./history-keep.js");
    offerMended(place, detail);
  }
});
