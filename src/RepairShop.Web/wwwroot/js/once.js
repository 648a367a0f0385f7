// A button pressed twice sends once. The server guards the same for those without script.
document.addEventListener("submit", event => {
  const form = event.target;
  if (form.method !== "post" || event.defaultPrevented) {
    return;
  }
  if (form.dataset.sent) {
    event.preventDefault();
    return;
  }
  form.dataset.sent = "yes";
  const pressed = event.submitter;
  if (pressed) {
    pressed.setAttribute("aria-disabled", "true");
  }
});

// The browser's back button brings the page back as it was left: let it send again.
window.addEventListener("pageshow", () => {
  for (const form of document.querySelectorAll("form[data-sent]")) {
    delete form.dataset.sent;
    for (const button of form.querySelectorAll("[aria-disabled]")) {
      button.removeAttribute("aria-disabled");
    }
  }
});
