// What was written down while taking apart waits here, on this device, until the book says that it has it. Words and photos of an
// entry are kept together or not at all; photos are too large for localStorage, so it is IndexedDB.
globalThis.stripQueue = (() => {
  const opened = new Promise((resolve, reject) => {
    if (!("indexedDB" in globalThis)) {
      reject(new Error("This browser keeps nothing."));
      return;
    }
    const asked = indexedDB.open("strip-down", 1);
    asked.onupgradeneeded = () => asked.result.createObjectStore("entries", { keyPath: "order", autoIncrement: true });
    asked.onsuccess = () => resolve(asked.result);
    asked.onerror = () => reject(asked.error);
  });
  opened.catch(() => { }); // whoever asks is told; nobody need ask

  const inStore = async (mode, work) => {
    const db = await opened;
    return new Promise((resolve, reject) => {
      const transaction = db.transaction("entries", mode);
      const asked = work(transaction.objectStore("entries"));
      transaction.oncomplete = () => resolve(asked.result);
      transaction.onabort = transaction.onerror = () => reject(transaction.error);
    });
  };

  const of = async repair => (await inStore("readonly", entries => entries.getAll())).filter(entry => entry.repair === repair);

  // Other pages of the book say from this that something waits: see waiting.js.
  const note = async repair => {
    const count = (await of(repair)).length;
    const key = "strip-waiting:" + repair;
    if (count > 0) {
      localStorage.setItem(key, JSON.stringify({ count, address: location.pathname }));
    } else {
      localStorage.removeItem(key);
    }
  };

  const change = async (entry, work) => {
    const done = await inStore("readwrite", work);
    await note(entry.repair);
    return done;
  };

  return {
    opened,
    of,
    keep: entry => change(entry, entries => entries.put(entry)),
    forget: entry => change(entry, entries => entries.delete(entry.order)),

    // An id for an entry, made here; crypto.randomUUID is missing where the book is reached without https.
    newId: () => {
      const bytes = crypto.getRandomValues(new Uint8Array(16));
      bytes[6] = (bytes[6] & 0x0f) | 0x40;
      bytes[8] = (bytes[8] & 0x3f) | 0x80;
      const hex = [...bytes].map(byte => byte.toString(16).padStart(2, "0")).join("");
      return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
    },
  };
})();
