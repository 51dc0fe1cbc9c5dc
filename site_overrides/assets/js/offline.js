/** Starts the service worker, and says on a page that was kept how old it is. */

const { root, worker } = document.querySelector("[data-offline]").dataset;

function showDay() {
  const day = document.documentElement.dataset.kept;
  const note = document.querySelector("[data-kept-note]");
  if (day && note) {
    const words = new Date(`${day}T12:00:00`).toLocaleDateString("en-GB", { dateStyle: "long" });
    // Beside what may be said there of modules that did not arrive.
    note.prepend(`No network. This is what this device kept on ${words}. Ride advice may have changed since.`);
    note.hidden = false;
  }
}

showDay();
if ("serviceWorker" in navigator && window.isSecureContext) {
  const scope = new URL(root, document.baseURI).href;
  // What is on the page comes first.
  const start = () => navigator.serviceWorker.register(new URL(worker, document.baseURI).href, { scope }).catch(() => {});
  if (document.readyState === "complete") {
    start();
  } else {
    addEventListener("load", start, { once: true });
  }
}
