// A running clock shows its time without a reload; the server's figure stands there until then.
(() => {
  const text = minutes => minutes < 60 ? `${minutes} min` : `${Math.floor(minutes / 60)} h ${String(minutes % 60).padStart(2, "0")} min`;
  const show = () => {
    for (const clock of document.querySelectorAll("[data-since]")) {
      const minutes = Math.round((Date.now() / 1000 - Number(clock.dataset.since)) / 60);
      if (minutes >= 0) {
        clock.textContent = text(minutes);
      }
    }
  };
  setInterval(show, 15000);
})();
