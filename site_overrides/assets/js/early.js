// Runs before anything is drawn, so that a remembered choice of colours does not flash. A classic script on purpose.
(function () {
  var root = document.documentElement;
  root.setAttribute("data-js", "");
  var moved = root.getAttribute("data-moved");
  if (moved) {
    // With what was asked for and shared: a link may be older than the entry's new address.
    location.replace(moved + location.search + location.hash);
  }
  // Room for the answer about several codes.
  if (/[?&]codes=/.test(location.search) || /^#state=/.test(location.hash)) {
    root.setAttribute("data-codes", "");
  }
  // A module that does not arrive cannot say so itself, and leaves empty what it would have filled.
  var isLost = false;
  addEventListener("error", function (event) {
    var note = document.querySelector("[data-kept-note]");
    if (note && !isLost && /** @type {Partial<HTMLScriptElement>} */ (event.target).type === "module") {
      isLost = true;
      var again = document.createElement("button");
      again.type = "button";
      again.className = "my-bike__button";
      again.textContent = "Load the page again";
      again.addEventListener("click", function () { location.reload(); });
      note.append(" A part of this page did not arrive. ", again);
      note.hidden = false;
    }
  }, true);
  try {
    var scheme = localStorage.getItem("scheme");
    if (scheme === "light" || scheme === "dark") {
      root.setAttribute("data-scheme", scheme);
    }
    // Room for its name, so that nothing moves when it comes.
    if (localStorage.getItem("bike")) {
      root.setAttribute("data-bike", "");
    }
  } catch (_) {
    // Storage may be forbidden; then the system's choice holds.
  }
})();
