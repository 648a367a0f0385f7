// Hands what waits on this device to the book, one entry after another in the order they were written. An entry leaves the device
// only when the book says that it has it; sent twice, its id makes it one entry.
globalThis.stripSender = ({ form, repair, show, taken }) => {
  const queue = globalThis.stripQueue;
  const soonest = 2000, latest = 30000, longestTry = 120000;
  const address = form.getAttribute("action") || location.href;
  const token = () => form.elements["__RequestVerificationToken"];
  let sending = false;
  let wait = soonest;
  let timer = 0;
  let attempt = null;

  // A page that has lain open over a sign-in holds a token that no longer fits: fetch a fresh one.
  const freshToken = async () => {
    const page = await (await fetch(location.href)).text();
    const found = new DOMParser().parseFromString(page, "text/html").querySelector("form[data-queue] [name=__RequestVerificationToken]");
    if (found) {
      token().value = found.value;
    }
    return Boolean(found);
  };

  // Over a dead line an answer may never come: the attempt ends by itself, and what it may have brought there is told by its id.
  const post = async entry => {
    const body = new FormData();
    for (const [name, value] of entry.fields) {
      body.append(name, value);
    }
    for (const file of entry.files) {
      body.append("files", file, file.name);
    }
    body.set("Input.FromQueue", "true");
    body.set("__RequestVerificationToken", token().value);
    attempt = new AbortController();
    const end = setTimeout(() => attempt.abort(), longestTry);
    try {
      return await fetch(address, { method: "POST", body, headers: { "X-Requested-With": "fetch" }, redirect: "error", signal: attempt.signal });
    } finally {
      clearTimeout(end);
    }
  };

  // What sending again would not mend is a person's to mend; null where trying again may help.
  const refusal = async answer => {
    switch (answer.status) {
      case 422: return await answer.text();
      case 413: return "its photos are together larger than the book takes (30 MB). Put it back into the form and choose fewer, or smaller ones.";
      case 404: return "the book has no such repair any more.";
      default: return null;
    }
  };

  /// One entry to the book; true when it has been dealt with.
  const hand = async entry => {
    let answer = await post(entry);
    if (answer.status === 400 && await freshToken()) {
      answer = await post(entry);
    }
    if (answer.ok && answer.headers.has("X-Told")) {
      const page = await answer.text();
      await queue.forget(entry);
      await taken(page, decodeURIComponent(answer.headers.get("X-Told")));
      return true;
    }
    entry.refused = await refusal(answer);
    if (entry.refused) {
      await queue.keep(entry);
      await show();
      return true;
    }
    await show(answer.status === 401 || answer.status === 400 || answer.ok
      ? "You are signed out. Sign in again in another tab; what is kept here is then sent."
      : "The book does not answer as it should; what is kept here is sent when it does.");
    return false;
  };

  const waiting = async () => (await queue.of(repair)).filter(entry => !entry.refused);

  const send = async () => {
    if (sending) {
      return;
    }
    sending = true;
    try {
      for (let entry; ([entry] = await waiting()) && entry && await hand(entry);) {
        wait = soonest;
      }
    } catch {
      await show(); // no connection: the entries wait in their order
    } finally {
      sending = false;
    }
    clearTimeout(timer);
    if ((await waiting()).length > 0) {
      timer = setTimeout(send, wait);
      wait = Math.min(wait * 2, latest);
    }
  };

  // Back in reach: an attempt begun before would hang on the old line.
  addEventListener("online", () => {
    wait = soonest;
    attempt?.abort();
    send();
  });
  document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && send());
  return send;
};
