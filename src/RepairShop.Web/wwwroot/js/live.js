// While readings are typed, the server works their figures out and sends the table back. The "Work out" button does the same
// without script. Only the latest answer is shown; nothing typed is touched.
(() => {
  const form = document.querySelector("form[data-live]");
  const figures = document.getElementById("figures");
  if (!form || !figures || !form.dataset.live.includes("handler=WorkOut")) {
    return;
  }
  let wait = 0;
  let asked = 0;
  const ask = async () => {
    const mine = ++asked;
    try {
      const answer = await fetch(form.dataset.live, {
        method: "POST",
        body: new FormData(form),
        headers: { "X-Requested-With": "fetch" },
        redirect: "error",
      });
      if (answer.ok && mine === asked) {
        figures.innerHTML = await answer.text();
      }
    } catch {
      figures.setAttribute("data-stale", "yes"); // no connection: the figures wait, the readings stay in the form
    }
  };
  form.addEventListener("input", () => {
    figures.removeAttribute("data-stale");
    clearTimeout(wait);
    wait = setTimeout(ask, 350);
  });
})();
