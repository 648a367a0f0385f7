// Steps of a strip-down that wait on this device are not forgotten because another page is open: see strip-queue.js.
(() => {
  const prefix = "strip-waiting:";
  for (const key of Object.keys(localStorage).filter(key => key.startsWith(prefix))) {
    const { count, address } = JSON.parse(localStorage.getItem(key));
    if (address === location.pathname) {
      continue;
    }
    const bar = document.createElement("div");
    bar.className = "notice";
    bar.setAttribute("role", "status");
    const words = document.createElement("p");
    const link = document.createElement("a");
    link.href = address;
    link.textContent = "Send now";
    words.append(`${count === 1 ? "A step" : `${count} steps`} of the strip-down of ${key.slice(prefix.length)} ${count === 1 ? "waits" : "wait"} on this device and ${count === 1 ? "is" : "are"} not in the book yet. `, link);
    bar.append(words);
    document.getElementById("content").prepend(bar);
  }
})();
