// Records the shutter in the page: arm, release, and each exposure is cut out, kept in the browser, sent, and answered with figures.
(() => {
  const form = document.querySelector("form[data-capture]");
  if (!form) {
    return;
  }
  const part = name => form.querySelector(`[data-${name}]`);
  const releases = document.getElementById("releases");
  const speeds = [...form.querySelectorAll("input[name=mark]")];
  const meters = [...form.querySelectorAll("[data-level]")];
  const processing = ["echoCancellation", "noiseSuppression", "autoGainControl"];
  let armed = null;
  let sending = Promise.resolve();
  part("panel").hidden = false;

  const state = words => { if (part("state").textContent !== words) part("state").textContent = words; };
  const warn = words => { if (part("warning").textContent !== words) part("warning").textContent = words; };
  const chosen = () => speeds.find(speed => speed.checked) || speeds[0];
  const shown = speed => speed.parentElement.textContent.trim();
  const roles = () => [...form.querySelectorAll("select[name=roles]")].map(list => list.value);

  const tell = (mark, words) => {
    const line = document.createElement("li");
    line.textContent = `${mark}: ${words}`;
    part("refused").prepend(line);
  };

  const replace = html => {
    releases.innerHTML = html;
    const test = releases.querySelector("[data-test]");
    if (test && test.dataset.test) {
      form.elements.test.value = test.dataset.test;
    }
    document.dispatchEvent(new Event("charts"));
  };

  const post = (address, body) => {
    body.set("__RequestVerificationToken", form.elements.__RequestVerificationToken.value);
    body.set("test", form.elements.test.value);
    return fetch(address, { method: "POST", body, headers: { "X-Requested-With": "fetch" }, redirect: "error" });
  };

  // One after the other, oldest first: the first one begins the shutter test the others go to.
  const send = one => {
    sending = sending.then(async () => {
      const body = new FormData();
      for (const [name, value] of [["release", one.release], ["mark", one.mark], ["lost", one.lost]]) {
        body.set(name, value);
      }
      one.roles.forEach(role => body.append("roles", role));
      body.set("file", one.wav, "release.wav");
      try {
        const answer = await post(one.address, body);
        if (answer.ok) {
          replace(await answer.text());
        } else if (answer.status === 422) {
          tell(one.shown, await answer.text());
        } else {
          throw new Error(`status ${answer.status}`);
        }
        await captureStore.remove(one.release);
      } catch {
        tell(one.shown, "could not be sent. It is kept in this browser and sent when the page is loaded again.");
      }
    });
    return sending;
  };

  const finished = async cut => {
    const speed = chosen();
    const wanted = roles().length > 1 && roles()[1] !== "Unused" ? cut.channels : cut.channels.slice(0, 1);
    const one = {
      release: crypto.randomUUID(), address: form.dataset.release, mark: speed.value, shown: shown(speed), lost: cut.lost,
      roles: roles().slice(0, wanted.length), wav: captureWav(wanted, armed.rate),
    };
    try {
      await captureStore.put(one);
    } catch {
      tell(one.shown, "this browser keeps nothing on disk: a reload before the figures appear would lose this release.");
    }
    await send(one);
  };

  const watching = () => {
    if (!armed) {
      return;
    }
    armed.watch.levels().forEach((height, i) => { if (meters[i]) meters[i].value = Math.min(1, height); });
    if (armed.watch.silent) {
      stop("No signal comes from this input: plug the sensor in, choose its input in the system’s sound settings, and turn it up. Nothing was recorded.");
      return;
    }
    const hum = armed.watch.hum();
    if (armed.watch.clipped) {
      armed.clippedUntil = Date.now() + 3000;
    }
    warn([
      Date.now() < armed.clippedUntil && "The input is overdriven: turn it down or move the lamp away.",
      armed.watch.losing && "The browser lost a block of sound: close other programs and pages.",
      hum && `Hum at ${hum.hertz} Hz, ${(hum.height * 100).toFixed(0)} % of full scale: keep the cable off mains leads, and use a lamp on direct current.`,
    ].filter(Boolean).join(" "));
    state(armed.watch.exposure ? `${shown(chosen())}: exposure running…`
      : armed.watch.settled ? `Armed at ${shown(chosen())}. Release the shutter.` : "Listening to the quiet…");
  };

  const stop = words => {
    if (armed) {
      clearInterval(armed.timer);
      armed.node.port.onmessage = null;
      armed.stream.getTracks().forEach(track => track.stop());
      armed.context.close();
      armed = null;
    }
    part("levels").hidden = part("stop").hidden = true;
    part("arm").hidden = false;
    state(words);
  };

  const input = async () => {
    if (!navigator.mediaDevices || !window.AudioWorkletNode) {
      throw new Error("This browser gives no access to a sound input here: open the book over https or on the machine it runs on, in a present browser.");
    }
    const off = Object.fromEntries(processing.map(name => [name, false]));
    let stream;
    try {
      stream = await navigator.mediaDevices.getUserMedia({ audio: { ...off, channelCount: { ideal: 2 } } });
    } catch (refused) {
      throw new Error(refused.name === "NotAllowedError" ? "The browser was not allowed to use the sound input: allow it beside the address, then arm again."
        : "No sound input was found: plug the light sensor into the microphone or line input, then arm again.");
    }
    const settings = stream.getAudioTracks()[0].getSettings();
    const still = processing.filter(name => settings[name] !== false);
    if (still.length > 0 || settings.voiceIsolation === true) {
      stream.getTracks().forEach(track => track.stop());
      throw new Error("The browser’s sound processing can’t be turned off for this input, and it would falsify every time: use another browser or input, or send a WAV file.");
    }
    return stream;
  };

  const arm = async () => {
    part("arm").hidden = true;
    warn("");
    state("Asking for the sound input…");
    try {
      const stream = await input();
      const context = new AudioContext({ latencyHint: "playback" });
      await context.audioWorklet.addModule(form.dataset.worklet);
      await context.resume();
      const source = context.createMediaStreamSource(stream);
      const node = new AudioWorkletNode(context, "capture", { numberOfInputs: 1, numberOfOutputs: 0, channelCount: 2, channelCountMode: "max" });
      const light = Math.max(0, roles().findIndex(role => role.startsWith("Light")));
      armed = { stream, context, node, rate: context.sampleRate, watch: new CaptureWatch(context.sampleRate, 2, light), clippedUntil: 0 };
      node.port.onmessage = message => {
        if (armed && message.data.channels.length < 2 && roles().slice(1).some(role => role !== "Unused")) {
          stop("This input has one channel only: set the right channel to not used, or choose a stereo input.");
          return;
        }
        const cut = armed && armed.watch.take(message.data.channels, message.data.lost, Number(chosen().dataset.seconds));
        if (cut) {
          finished(cut);
        }
      };
      source.connect(node);
      stream.getAudioTracks()[0].addEventListener("ended", () => stop("The sound input was taken away. Plug it in and arm again."));
      part("levels").hidden = part("stop").hidden = false;
      part("right").hidden = (stream.getAudioTracks()[0].getSettings().channelCount || 1) < 2;
      armed.timer = setInterval(watching, 200);
    } catch (refused) {
      stop(refused.message);
    }
  };

  part("arm").addEventListener("click", arm);
  part("stop").addEventListener("click", () => stop("Not armed. What was recorded is kept."));
  part("next").addEventListener("click", () => {
    const next = speeds[(speeds.indexOf(chosen()) + 1) % speeds.length];
    next.checked = true;
  });

  // Typing and striking out go the same way, so that the input stays armed.
  form.addEventListener("submit", async event => {
    event.preventDefault();
    const answer = await post(form.action, new FormData(form)).catch(() => null);
    delete form.dataset.sent;
    event.submitter?.removeAttribute("aria-disabled");
    if (answer && answer.ok) {
      replace(await answer.text());
      form.elements.Text.value = "";
      tell(shown(chosen()), "the typed time is saved.");
    } else {
      tell(shown(chosen()), answer && answer.status === 422 ? await answer.text() : "the typed time could not be sent; it stays in its field.");
    }
  });
  releases.addEventListener("submit", async event => {
    event.preventDefault();
    const answer = await post(event.target.action, new FormData(event.target)).catch(() => null);
    if (answer && answer.ok) {
      replace(await answer.text());
    } else {
      delete event.target.dataset.sent;
    }
  });

  captureStore.waiting(form.dataset.release).then(all => all.forEach(send)).catch(() => {}); // no store, so nothing waits in it
})();
