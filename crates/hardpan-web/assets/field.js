"use strict";
// The log for the field. What is written is kept on this device first, then sent
// under a mark of its own, so that a lost answer records nothing twice.

(() => {
  const page = document.querySelector(".field-page");
  if (!page || !("indexedDB" in window)) return;
  const $ = (query, from = document) => from.querySelector(query);
  const all = (query, from = document) => [...from.querySelectorAll(query)];
  const book = page.dataset.book;
  const EVERY = 15000;
  const KEPT = 30;

  // The device's own store.
  const opened = new Promise((resolve, reject) => {
    const request = indexedDB.open("hardpan-field", 1);
    request.onupgradeneeded = () => {
      request.result.createObjectStore("waiting", { keyPath: "mark" });
      request.result.createObjectStore("sent", { keyPath: "mark" });
    };
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });

  async function inStores(mode, work) {
    const store = await opened;
    return new Promise((resolve, reject) => {
      const step = store.transaction(["waiting", "sent"], mode, { durability: "strict" });
      const got = work(step.objectStore("waiting"), step.objectStore("sent"));
      step.oncomplete = () => resolve(got?.result);
      step.onerror = step.onabort = () => reject(step.error);
    });
  }
  const inOrder = (list) => list.sort((a, b) => a.written.localeCompare(b.written));
  const mine = (list) => inOrder(list.filter((one) => one.book === book));
  const waiting = async () => mine(await inStores("readonly", (w) => w.getAll()));
  const sent = async () => mine(await inStores("readonly", (_, s) => s.getAll()));
  const put = (one) => inStores("readwrite", (w) => w.put(one));
  const drop = (mark) => inStores("readwrite", (w) => w.delete(mark));
  const done = (one, entry) => inStores("readwrite", (w, s) => {
    w.delete(one.mark);
    s.put({ ...one, entry });
  });

  function say(words, isLinked) {
    const place = $("#link-state");
    if (place.textContent !== words) place.textContent = words;
    place.classList.toggle("away", !isLinked);
  }

  function words(one) {
    const rest = Object.entries(one.fields).filter(([name]) => name !== "strip");
    const label = (name) => $(`#${CSS.escape(`${one.record}-${name}`)}`)?.closest(".field")
      ?.querySelector("label")?.firstChild?.textContent.split(" (")[0].trim() ?? name;
    return `${one.record}${one.fields.strip ? `, ${one.fields.strip}` : ""}. `
      + rest.map(([name, value]) => `${label(name)}: ${value}`).join("; ");
  }

  function button(text, work) {
    const made = document.createElement("button");
    made.type = "button";
    made.textContent = text;
    made.addEventListener("click", work);
    return made;
  }

  function line(text, kind) {
    const made = document.createElement("p");
    made.textContent = text;
    if (kind) made.className = kind;
    return made;
  }

  async function show() {
    const open = await waiting();
    $("#waiting").hidden = open.length === 0;
    $("#waiting ul").replaceChildren(...open.map((one) => {
      const item = document.createElement("li");
      item.dataset.mark = one.mark;
      item.dataset.state = one.state;
      item.append(line(words(one), "what"), line(`by ${one.by}, written ${one.written}`, "audit"));
      const count = one.pictures?.length ?? 0;
      if (one.entry) item.append(line(`entry ${one.entry} of the book; its pictures wait`, "audit"));
      if (count) item.append(line(`${count === 1 ? "1 picture" : `${count} pictures`}: ${one.pictures.map((p) => p.shown).join("; ")}`, "audit"));
      if (one.said) item.append(line(one.said, "wrong"));
      if (one.state === "asks") {
        item.append(button("Record it all the same", async () => {
          await put({ ...one, anyway: true, state: "waiting", said: "" });
          send();
        }));
      }
      if (one.state === "refused" && one.entry) {
        item.append(button("Throw this picture away", async () => {
          const rest = one.pictures.slice(1);
          if (rest.length) await put({ ...one, pictures: rest, state: "waiting", said: "" });
          else await done({ ...one, pictures: [] }, one.entry);
          await show();
          send();
        }));
      } else if (one.state === "refused") item.append(button("Put it right", () => takeBack(one)));
      if (one.state !== "waiting" && !one.entry) {
        item.append(button("Throw it away", async () => {
          await drop(one.mark);
          show();
        }));
      }
      return item;
    }));
    const gone = (await sent()).slice(-KEPT).reverse();
    $("#sent").hidden = gone.length === 0;
    $("#sent ul").replaceChildren(...gone.map((one) => {
      const item = document.createElement("li");
      item.textContent = `entry ${one.entry}: ${words(one)}`;
      return item;
    }));
    return open;
  }

  // A refused record goes back into its form; it stays here until another is kept.
  async function takeBack(one) {
    const form = $(`form[data-record="${CSS.escape(one.record)}"]`);
    if (!form) return;
    form.dataset.instead = one.mark;
    form.closest("details").open = true;
    for (const [name, value] of Object.entries(one.fields)) {
      if (form.elements[name]) form.elements[name].value = value;
    }
    form.taken = one.pictures ?? [];
    showPictures(form);
    await show();
    form.elements[0].focus();
  }

  // Keeping: whole and plausible first, so that little comes back refused later.
  function plausible(form) {
    for (const input of form.elements) {
      if (!input.dataset?.with) continue;
      const depth = form.elements[input.dataset.with].value;
      const needs = parseFloat(depth.replace(",", ".")) > 0 && input.value.trim() === "";
      input.setCustomValidity(needs ? "Say where it was found." : "");
    }
    return form.reportValidity();
  }

  // Pictures that were chosen, each with the words for who cannot see it.
  function showPictures(form) {
    const place = $(".shown", form);
    if (!place) return;
    place.replaceChildren(...(form.taken ?? []).map((picture, index) => {
      const made = document.createElement("div");
      made.className = "field";
      const label = document.createElement("label");
      const input = document.createElement("input");
      input.id = `${form.dataset.record}-shown-${index}`;
      label.htmlFor = input.id;
      label.textContent = `what ${picture.name} shows`;
      Object.assign(input, { type: "text", required: true, maxLength: 400, value: picture.shown ?? "" });
      input.addEventListener("input", () => { picture.shown = input.value; });
      made.append(label, input, button("Leave it out", () => {
        form.taken.splice(index, 1);
        showPictures(form);
      }));
      return made;
    }));
  }

  function choose(form, input) {
    const [most, largest] = [Number(input.dataset.most), Number(input.dataset.largest)];
    const kinds = input.accept.split(",");
    const chosen = [...input.files];
    const wrong = chosen.find((file) => file.size > largest || file.size === 0 || !kinds.includes(file.type));
    const place = $(".wrong", form);
    const many = (form.taken ?? []).length + chosen.length > most;
    input.value = "";
    place.hidden = !(wrong || many);
    if (wrong) {
      place.textContent = `${wrong.name} is no JPEG, PNG or WebP of at most ${largest / 1048576} MiB. None was taken.`;
    } else if (many) place.textContent = `A record takes ${most} pictures. None was taken.`;
    else {
      form.taken = [...(form.taken ?? []), ...chosen.map((blob) => ({ mark: crypto.randomUUID(), name: blob.name, blob, shown: "" }))];
      showPictures(form);
    }
  }

  function now() {
    return new Date().toISOString().slice(0, 16) + ":00Z";
  }

  function suggest(form) {
    for (const [name, text] of [["at", now()], ["date", now().slice(0, 10)]]) {
      const input = form.elements[name];
      if (input && !input.value) input.value = text;
    }
  }

  all(".field-form").forEach((form) => {
    const wrong = $(".wrong", form);
    form.closest("details").addEventListener("toggle", (event) => {
      if (event.target.open) suggest(form);
    });
    form.addEventListener("submit", async (event) => {
      event.preventDefault();
      const who = $("#who");
      wrong.hidden = true;
      if (!plausible(form) || !who.reportValidity()) return;
      const fields = { strip: $("#strip").value };
      new FormData(form).forEach((value, name) => {
        if (typeof value === "string" && value.trim()) fields[name] = value.trim();
      });
      if (form.dataset.record === "equipment") delete fields.strip;
      const one = {
        mark: crypto.randomUUID(), book, record: form.dataset.record, fields,
        by: $("#by").value.trim(), account: page.dataset.account,
        written: new Date().toISOString(), state: "waiting", said: "", anyway: false,
        pictures: (form.taken ?? []).map((picture) => ({ ...picture, shown: picture.shown.trim() })),
      };
      try {
        await put(one);
        if (form.dataset.instead) await drop(form.dataset.instead);
      } catch (error) {
        wrong.textContent = `Not kept: this device does not store it (${error?.message ?? error}).`;
        wrong.hidden = false;
        return;
      }
      localStorage.setItem("hardpan-by", one.by);
      delete form.dataset.instead;
      form.taken = [];
      showPictures(form);
      form.reset();
      form.closest("details").open = false;
      await show();
      send();
    });
    form.addEventListener("input", (event) => event.target.setCustomValidity?.(""));
    const files = $("input[type=file]", form);
    files?.addEventListener("change", () => choose(form, files));
  });

  // Sending.
  function count(list) {
    const open = list.filter((one) => one.state === "waiting").length;
    return open === 1 ? "1 record waits" : `${open} records wait`;
  }

  async function send() {
    if (navigator.locks) {
      await navigator.locks.request("hardpan-field", { ifAvailable: true }, (lock) => lock && sendAll());
    } else {
      await sendAll();
    }
  }

  async function sendAll() {
    let session;
    try {
      const answer = await fetch("/api/session", { cache: "no-store" });
      if (answer.status === 401) {
        const list = await show();
        say(`Signed out: ${count(list)} on this device. Sign in to send.`, false);
        $("#link-state").append(" ", Object.assign(document.createElement("a"), {
          href: "/sign-in?to=" + encodeURIComponent(location.pathname), textContent: "Sign in",
        }));
        return;
      }
      if (!answer.ok) throw new Error();
      session = await answer.json();
    } catch {
      const list = await show();
      say(`No connection to the book: ${count(list)} on this device.`, false);
      return;
    }
    const account = session.account ?? "";
    for (const one of await waiting()) {
      if (one.state !== "waiting") continue;
      if (one.account !== account) {
        await put({ ...one, said: `Written while ${one.account || "nobody"} was signed in; it is sent when that is so again.` });
        continue;
      }
      if (!(await sendOne(one, session.token))) break;
    }
    const list = await show();
    const asks = list.some((one) => one.state !== "waiting");
    say(list.length === 0 ? "Connected: everything is in the book."
      : asks ? "Connected: some records need a word from you." : `Connected: ${count(list)}.`, true);
  }

  // Whether to go on with the next.
  async function sendOne(one, token) {
    if (one.entry) return sendPictures(one, token);
    const { mark, record, fields, by, anyway } = one;
    let answer, told;
    try {
      answer = await fetch(`/api/books/${encodeURIComponent(book)}/entries`, {
        method: "POST", headers: { "content-type": "application/json", "x-hardpan-token": token },
        body: JSON.stringify({ mark, record, fields, by, anyway }),
      });
      told = await answer.json();
    } catch {
      return false;
    }
    if (answer.ok && one.pictures?.length) {
      const known = { ...one, entry: told.entry };
      await put(known);
      return sendPictures(known, token);
    }
    if (answer.ok) await done(one, told.entry);
    else if (answer.status === 409) await put({ ...one, state: "asks", said: told.error });
    else if (answer.status >= 500 || answer.status === 429 || answer.status === 401) return false;
    else await put({ ...one, state: "refused", said: told.error });
    return true;
  }

  // One after the other; each leaves the device when the book has it.
  async function sendPictures(one, token) {
    while (one.pictures.length) {
      const [picture, ...rest] = one.pictures;
      const asked = new URLSearchParams({ mark: picture.mark, shown: picture.shown, file: picture.name, by: one.by });
      let answer, told;
      try {
        answer = await fetch(`/api/books/${encodeURIComponent(book)}/entries/${one.entry}/pictures?${asked}`, {
          method: "POST", headers: { "content-type": picture.blob.type, "x-hardpan-token": token }, body: picture.blob,
        });
        told = await answer.json();
      } catch {
        return false;
      }
      if (!answer.ok) {
        if (answer.status >= 500 || [401, 408, 429].includes(answer.status)) return false;
        await put({ ...one, state: "refused", said: `${picture.name}: ${told.error}` });
        return true;
      }
      one = { ...one, pictures: rest };
      await put(one);
    }
    await done(one, one.entry);
    return true;
  }

  const by = $("#by");
  if (by && !by.value) by.value = localStorage.getItem("hardpan-by") ?? "";
  $("#send").addEventListener("click", send);
  addEventListener("online", send);
  document.addEventListener("visibilitychange", () => { if (!document.hidden) send(); });
  setInterval(send, EVERY);
  navigator.storage?.persist?.();
  navigator.serviceWorker?.register("/worker.js").then(() => navigator.serviceWorker.ready)
    .then((ready) => {
      ready.active.postMessage({ keep: location.pathname });
      page.dataset.ready = "yes";
    }).catch(() => { page.dataset.ready = "no"; });
  show().then(send);
})();
