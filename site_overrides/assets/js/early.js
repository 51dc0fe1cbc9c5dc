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
