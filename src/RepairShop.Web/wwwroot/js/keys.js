// "/" goes to the find box, Ctrl+Enter (or ⌘ Enter) sends the form one is in.
document.addEventListener("keydown", event => {
  const typing = event.target.closest("input, textarea, select, [contenteditable]");
  if (event.key === "/" && !typing && !event.ctrlKey && !event.metaKey && !event.altKey) {
    const find = document.querySelector("[data-find]");
    if (find) {
      event.preventDefault();
      find.focus();
      find.select();
    }
  }
  if (event.key === "Enter" && (event.ctrlKey || event.metaKey) && typing && typing.form) {
    event.preventDefault();
    const first = typing.form.querySelector("button[type=submit], button:not([type])");
    typing.form.requestSubmit(first);
  }
});
