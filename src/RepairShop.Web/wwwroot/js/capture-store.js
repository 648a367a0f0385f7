// Releases wait in the browser's own store until the server has taken them, so that a reload or a dropped connection loses none.
window.captureStore = (() => {
  const open = () => new Promise((done, failed) => {
    const asked = indexedDB.open("captures", 1);
    asked.onupgradeneeded = () => asked.result.createObjectStore("releases", { keyPath: "release" });
    asked.onsuccess = () => done(asked.result);
    asked.onerror = () => failed(asked.error);
  });

  const within = async (mode, act) => {
    const store = await open();
    try {
      return await new Promise((done, failed) => {
        const transaction = store.transaction("releases", mode);
        const asked = act(transaction.objectStore("releases"));
        transaction.oncomplete = () => done(asked.result);
        transaction.onerror = () => failed(transaction.error);
        transaction.onabort = () => failed(transaction.error);
      });
    } finally {
      store.close();
    }
  };

  return {
    put: release => within("readwrite", store => store.put(release)),
    remove: id => within("readwrite", store => store.delete(id)),
    waiting: async address => (await within("readonly", store => store.getAll())).filter(one => one.address === address),
  };
})();
