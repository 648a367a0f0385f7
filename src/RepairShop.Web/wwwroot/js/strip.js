// Taking apart with a connection that comes and goes: an entry goes to the queue on this device first (strip-queue.js) and from
// there to the book (strip-send.js). Without script, or where the browser keeps nothing, the form posts as any form does.
(() => {
  const form = document.querySelector("form[data-queue]");
  if (!form) {
    return;
  }
  const queue = globalThis.stripQueue;
  const place = document.getElementById("queue");
  const repair = form.dataset.queue;
  const field = name => form.elements["Input." + name];

  const line = (entry, words, buttons) => {
    const item = document.createElement("li");
    const name = document.createElement("strong");
    name.textContent = entry.fields.find(([name]) => name === "Input.What")?.[1] || "a step";
    const state = document.createElement("span");
    state.textContent = words;
    item.append(name, " ", state);
    for (const [label, act] of buttons) {
      const button = document.createElement("button");
      button.type = "button";
      button.className = "button small";
      button.textContent = label;
      button.addEventListener("click", act);
      item.append(" ", button);
    }
    return item;
  };

  const show = async problem => {
    const entries = await queue.of(repair);
    const list = document.createElement("ul");
    for (const entry of entries) {
      list.append(entry.refused
        ? line(entry, "refused: " + entry.refused, [["Put it back into the form", () => correct(entry)], ["Forget it", () => forget(entry)]])
        : line(entry, "kept on this device, will be sent", []));
    }
    place.replaceChildren();
    if (entries.length > 0) {
      place.append(list);
    }
    if (problem) {
      const words = document.createElement("p");
      words.className = "mind-box";
      words.textContent = problem;
      place.append(words);
    }
  };

  const forget = async entry => {
    await queue.forget(entry);
    await show();
  };

  const fill = entry => {
    for (const one of form.elements) {
      const kept = entry.fields.filter(([name]) => name === one.name).map(([, value]) => value);
      if (one.type === "checkbox" || one.type === "radio") {
        one.checked = kept.includes(one.value);
      } else if (one.type === "file") {
        const photos = new DataTransfer();
        entry.files.forEach(file => photos.items.add(file));
        one.files = photos.files;
      } else if (!one.name.startsWith("__") && kept.length > 0) {
        one.value = kept[0];
      }
    }
    for (const details of form.querySelectorAll("details")) {
      details.open = true;
    }
    field("What").focus();
  };

  const correct = async entry => {
    if (field("What").value.trim() !== "") {
      field("What").focus();
      await show("Another step stands in the form: add it first, then put this one back.");
      return;
    }
    fill(entry);
    await forget(entry);
  };

  // The book's answer: the fresh list, and what it could not take of the photos.
  const taken = async (answer, told) => {
    const fresh = new DOMParser().parseFromString(answer, "text/html").getElementById("recent");
    if (fresh) {
      document.getElementById("recent").replaceWith(fresh);
      // The book knows the trays best; what the hand has begun to type stays.
      if (field("Cell") && field("What").value === "" && (await queue.of(repair)).length === 0) {
        field("Cell").value = fresh.dataset.nextCell;
      }
    }
    await show(told && "The step is kept, without its photo: " + told);
  };

  // The next free cell as the picture of the tray shows it, so that taking apart goes on without a connection. Empty where it can't
  // be told: better no cell than the one of the piece before.
  const nextCell = () => {
    const cell = /^\s*([A-Za-z])\s*(\d+)\s*$/.exec(field("Cell").value);
    const table = document.querySelector(`#recent table.tray[data-tray="${CSS.escape(field("TrayId").value)}"]`);
    if (!cell || !table) {
      return "";
    }
    const columns = table.tHead.rows[0].cells.length - 1;
    const cells = [...table.tBodies[0].rows].flatMap((row, r) => [...row.cells].slice(1).map((td, c) => ({ name: String.fromCharCode(65 + r) + (c + 1), td })));
    const here = (cell[1].toUpperCase().charCodeAt(0) - 65) * columns + Number(cell[2]) - 1;
    cells[here]?.td.classList.replace("free", "full");
    cells[here]?.td.classList.replace("emptied", "full");
    for (let step = 1; step <= cells.length; step++) {
      const next = cells[(here + step) % cells.length];
      if (next && (next.td.className === "free" || next.td.className === "emptied")) {
        return next.name;
      }
    }
    return "";
  };

  // Ready for the next one: how it was held and the tray stay, the cell moves on, the rest begins anew.
  const begin = () => {
    const cell = field("Cell");
    const next = cell && cell.value ? nextCell() : "";
    for (const one of form.elements) {
      if (one.type === "checkbox") {
        one.checked = false;
      } else if ("defaultValue" in one && !["hidden", "radio"].includes(one.type)) {
        one.value = one === cell ? next : "";
      }
    }
    field("Count").value = "1";
    field("What").focus();
  };

  // Under an id made now: one that came with the page may have been used before the page was shown again.
  const entryOf = data => ({
    repair,
    fields: [...data].filter(([name, value]) => typeof value === "string" && !name.startsWith("__") && name !== "Input.Once").concat([["Input.Once", queue.newId()]]),
    files: data.getAll("files").filter(file => file.size > 0),
  });

  const start = () => {
    const send = globalThis.stripSender({ form, repair, show, taken });
    form.addEventListener("submit", async event => {
      // An inserted step is sent by itself; the record's order must be seen before the next.
      if (field("After").value) {
        return;
      }
      event.preventDefault();
      event.stopImmediatePropagation();
      if (field("What").value.trim() === "") {
        field("What").focus();
        await show("What came off is empty: write it, such as front ring.");
        return;
      }
      const entry = entryOf(new FormData(form));
      form.setAttribute("aria-busy", "true"); // until it stands in the list of what waits
      begin(); // at once: the second press of a double press finds an empty form
      try {
        await queue.keep(entry);
      } catch {
        fill(entry);
        form.removeAttribute("aria-busy");
        await show("There is no room left on this device to keep this step: leave the page open until the connection is back.");
        return;
      }
      localStorage.removeItem("kept:" + location.pathname + ":" + form.dataset.keep);
      await show();
      form.removeAttribute("aria-busy");
      await send();
    }, true);
    show().then(send);
  };

  queue.opened.then(start, () => { });
})();
