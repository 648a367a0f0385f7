// <form data-keep="name">: what is typed stays in this browser until the server has taken it (a page without that form's
// errors follows), so that a flat battery or a closed lid loses nothing. Passwords and files are never kept.
(() => {
  const prefix = "kept:";
  const lifetime = 7 * 24 * 3600 * 1000;
  const keyOf = form => prefix + location.pathname + ":" + form.dataset.keep;

  const fieldsOf = form => [...form.elements].filter(field =>
    field.name && !field.name.startsWith("__") && !["hidden", "password", "file", "submit", "button"].includes(field.type));

  const valueOf = field => field.type === "checkbox" || field.type === "radio" ? field.checked : field.value;

  const read = (key, store = localStorage) => {
    try {
      return JSON.parse(store.getItem(key));
    } catch {
      return null; // somebody else's text under our name: nothing of ours to bring back
    }
  };

  const write = form => {
    const kept = fieldsOf(form).map(field => [field.name, field.type === "radio" ? field.value : null, valueOf(field)]);
    localStorage.setItem(keyOf(form), JSON.stringify({ at: Date.now(), kept }));
  };

  const differs = (form, kept) => fieldsOf(form).some(field => {
    const found = kept.find(([name, radio]) => name === field.name && (radio === null || radio === field.value));
    return found && found[2] !== valueOf(field);
  });

  const bringBack = (form, kept) => {
    for (const field of fieldsOf(form)) {
      const found = kept.find(([name, radio]) => name === field.name && (radio === null || radio === field.value));
      if (found && typeof found[2] === "boolean") {
        field.checked = found[2];
      } else if (found) {
        field.value = found[2];
      }
    }
  };

  const offer = (form, stored) => {
    const bar = document.createElement("div");
    bar.className = "notice";
    bar.setAttribute("role", "status");
    const words = document.createElement("p");
    words.textContent = "Text typed here earlier was not sent.";
    bar.append(words);
    for (const [label, act] of [["Bring it back", () => bringBack(form, stored.kept)], ["Forget it", () => localStorage.removeItem(keyOf(form))]]) {
      const button = document.createElement("button");
      button.type = "button";
      button.className = "button";
      button.textContent = label;
      button.addEventListener("click", () => { act(); bar.remove(); });
      bar.append(button);
    }
    form.before(bar);
  };

  // A form that was sent has been taken when this very sending was answered with a redirect to a page that is neither itself
  // with errors, nor the sign-in, nor one that tells of a failure. A page opened later says nothing of it.
  const sent = read("sent", sessionStorage);
  sessionStorage.removeItem("sent");
  const [arrival] = performance.getEntriesByType("navigation");
  const ledHere = sent && arrival.redirectCount > 0 && Math.abs(performance.timeOrigin - sent.at) < 5000;
  const { signIn, failed } = document.body.dataset;
  if (ledHere && !document.querySelector(".form-errors") && signIn !== "yes" && failed !== "yes") {
    localStorage.removeItem(sent.key);
  }

  for (const form of document.querySelectorAll("form[data-keep]")) {
    const stored = read(keyOf(form));
    if (stored && Date.now() - stored.at < lifetime && differs(form, stored.kept)) {
      offer(form, stored);
    }
    // Going back, a browser fills in some fields and not others: half a form, with what was taken already. All of it, or nothing.
    if (arrival.type === "back_forward") {
      addEventListener("pageshow", () => form.reset(), { once: true });
    }
    form.addEventListener("input", () => write(form));
    form.addEventListener("submit", () => sessionStorage.setItem("sent", JSON.stringify({ key: keyOf(form), at: Date.now() })));
  }
})();
