/** A handbook: a button that prints it, and `#print` in its address, by which a model year's page has it printed. */

const place = document.querySelector("[data-print]");
if (place) {
  const button = document.createElement("button");
  button.type = "button";
  button.className = "book-print";
  button.textContent = "Print it";
  button.addEventListener("click", () => window.print());
  place.append(button);
}

if (location.hash === "#print") {
  // Taken out of the address first: coming back must not print again.
  history.replaceState(null, "", location.pathname + location.search);
  const print = () => window.print();
  if (document.readyState === "complete") {
    print();
  } else {
    window.addEventListener("load", print, { once: true });
  }
}
