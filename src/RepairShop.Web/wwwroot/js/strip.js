// Taking apart with a connection that comes and goes. An entry is first kept on this device, under an id made here, and leaves it
// only when the server says that it has it; sent twice, the id makes it one entry. Without script the form posts as any form does.
(() => {
  const form = document.querySelector("form[data-queue]");
  if (!form || !("indexedDB" in window) || !("randomUUID" in crypto || "getRandomValues" in crypto)) {
    return;
  }
  const place = document.getElementById("queue");
  const repair = form.dataset.queue;
  const address = form.getAttribute("action") || location.href;
  let sending = false;
  let wait = 2000;

  // Photos are too large for localStorage; IndexedDB keeps words and pictures of an entry together or not at all.
  const opened = new Promise((resolve, reject) => {
    const asked = indexedDB.open("strip-down", 1);
    asked.onupgradeneeded = () => asked.result.createObjectStore("entries", { keyPath: "order", autoIncrement: true });
    asked.onsuccess = () => resolve(asked.result);
    asked.onerror = () => reject(asked.error);
  });
  const store = async (mode, work) => {
    const db = await opened;
    return new Promise((resolve, reject) => {
      const transaction = db.transaction("entries", mode);
      const asked = work(transaction.objectStore("entries"));
      transaction.oncomplete = () => resolve(asked.result);
      transaction.onabort = transaction.onerror = () => reject(transaction.error);
    });
  };
  const mine = async () => (await store("readonly", entries => entries.getAll())).filter(entry => entry.repair === repair);

  const newId = () => {
    const bytes = crypto.getRandomValues(new Uint8Array(16));
    bytes[6] = (bytes[6] & 0x0f) | 0x40;
    bytes[8] = (bytes[8] & 0x3f) | 0x80;
    const hex = [...bytes].map(byte => byte.toString(16).padStart(2, "0")).join("");
    return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
  };

  const line = (entry, words, buttons) => {
    const item = document.createElement("li");
    const name = document.createElement("strong");
    name.textContent = entry.fields.find(([field]) => field === "Input.What")?.[1] || "a step";
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
    const entries = await mine();
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
    await store("readwrite", entries => entries.delete(entry.order));
    await show();
  };

  const correct = async entry => {
    for (const field of form.elements) {
      const kept = entry.fields.filter(([name]) => name === field.name).map(([, value]) => value);
      if (field.type === "checkbox" || field.type === "radio") {
        field.checked = kept.includes(field.value);
      } else if (field.type !== "file" && !field.name.startsWith("__") && kept.length > 0) {
        field.value = kept[0];
      }
    }
    form.elements["Input.Once"].value = newId();
    await forget(entry);
    form.elements["Input.What"].focus();
  };

  // A page that has lain open over a sign-in holds a token that no longer fits: fetch a fresh one.
  const freshToken = async () => {
    const page = await (await fetch(location.href, { redirect: "error" })).text();
    const found = new DOMParser().parseFromString(page, "text/html").querySelector("form[data-queue] [name=__RequestVerificationToken]");
    if (!found) {
      return false;
    }
    form.elements["__RequestVerificationToken"].value = found.value;
    return true;
  };

  const post = entry => {
    const body = new FormData();
    for (const [name, value] of entry.fields) {
      body.append(name, value);
    }
    for (const file of entry.files) {
      body.append("files", file, file.name);
    }
    body.set("Input.FromQueue", "true");
    body.set("__RequestVerificationToken", form.elements["__RequestVerificationToken"].value);
    return fetch(address, { method: "POST", body, headers: { "X-Requested-With": "fetch" }, redirect: "error" });
  };

  const took = async (entry, answer) => {
    await store("readwrite", entries => entries.delete(entry.order));
    const page = new DOMParser().parseFromString(await answer.text(), "text/html");
    const fresh = page.getElementById("recent");
    if (fresh) {
      document.getElementById("recent").replaceWith(fresh);
      // The server knows the trays best; what the hand has begun to type stays.
      if (form.elements["Input.Cell"] && form.elements["Input.What"].value === "" && (await mine()).length === 0) {
        form.elements["Input.Cell"].value = fresh.dataset.nextCell;
      }
    }
    const told = decodeURIComponent(answer.headers.get("X-Told") || "");
    await show(told && "The step is kept, without its photo: " + told);
  };

  /// One entry to the server; true when it has been dealt with.
  const hand = async entry => {
    let answer = await post(entry);
    if (answer.status === 400 && await freshToken()) {
      answer = await post(entry);
    }
    if (answer.ok && answer.headers.has("X-Told")) {
      await took(entry, answer);
      return true;
    }
    if (answer.status === 422) {
      entry.refused = await answer.text();
      await store("readwrite", entries => entries.put(entry));
      await show();
      return true;
    }
    await show(answer.status === 401 || answer.ok
      ? "You are signed out. Sign in again in another tab; what is kept here is then sent."
      : "The book does not answer as it should; what is kept here is sent when it does.");
    return false;
  };

  const send = async () => {
    if (sending) {
      return;
    }
    sending = true;
    try {
      for (let entry; (entry = (await mine()).find(one => !one.refused)) && await hand(entry);) {
        wait = 2000;
      }
    } catch {
      await show(); // no connection: the entries wait in their order
    } finally {
      sending = false;
    }
    if ((await mine()).some(entry => !entry.refused)) {
      setTimeout(send, wait);
      wait = Math.min(wait * 2, 30000);
    }
  };

  // The next free cell as the picture of the tray shows it, so that taking apart goes on without a connection.
  const nextCell = () => {
    const cell = /^\s*([A-Za-z])\s*(\d+)\s*$/.exec(form.elements["Input.Cell"].value);
    const table = document.querySelector("#recent table.tray");
    if (!cell || !table || document.querySelectorAll("#recent table.tray").length > 1) {
      return "";
    }
    const columns = table.tHead.rows[0].cells.length - 1;
    const cells = [...table.tBodies[0].rows].flatMap((row, r) => [...row.cells].slice(1).map((td, c) => ({ name: String.fromCharCode(65 + r) + (c + 1), td })));
    const here = (cell[1].toUpperCase().charCodeAt(0) - 65) * columns + Number(cell[2]) - 1;
    if (cells[here]) {
      cells[here].td.classList.replace("free", "full");
    }
    for (let step = 1; step <= cells.length; step++) {
      const next = cells[(here + step) % cells.length];
      if (next && next.td.className !== "full" && next.td.className !== "warned") {
        return next.name;
      }
    }
    return "";
  };

  // Ready for the next one: how it was held and the tray stay, the cell moves on, the rest begins anew.
  const begin = () => {
    const cell = form.elements["Input.Cell"];
    const next = cell && cell.value ? nextCell() : "";
    for (const field of form.elements) {
      if (field.type === "checkbox") {
        field.checked = false;
      } else if (["text", "textarea", "file"].includes(field.type) && field !== cell) {
        field.value = "";
      }
    }
    form.elements["Input.Count"].value = "1";
    form.elements["Input.Once"].value = newId();
    if (cell && next) {
      cell.value = next;
    }
    form.elements["Input.What"].focus();
  };

  form.addEventListener("submit", async event => {
    // One inserted step is a page of its own; the record's order must be seen before the next.
    if (form.elements["Input.After"].value) {
      return;
    }
    event.preventDefault();
    event.stopImmediatePropagation();
    if (form.elements["Input.What"].value.trim() === "") {
      form.elements["Input.What"].focus();
      await show("What came off is empty: write it, such as front ring.");
      return;
    }
    const data = new FormData(form);
    const entry = {
      repair,
      fields: [...data].filter(([name, value]) => typeof value === "string" && !name.startsWith("__")),
      files: [...data.getAll("files")].filter(file => file.size > 0),
    };
    try {
      await store("readwrite", entries => entries.add(entry));
    } catch {
      await show("There is no room left on this device to keep this entry: leave the page open until the connection is back.");
      return;
    }
    sessionStorage.removeItem("sent");
    localStorage.removeItem("kept:" + location.pathname + ":" + form.dataset.keep);
    begin();
    await show();
    await send();
  }, true);

  addEventListener("online", () => { wait = 2000; send(); });
  show().then(send);
})();
