"use strict";
// One cursor through all bands, and answers in place. Without this file the
// page still works: the form is a form, the bands are drawings.

(() => {
  const $ = (query, from = document) => from.querySelector(query);
  const all = (query, from = document) => [...from.querySelectorAll(query)];
  document.documentElement.classList.add("scripted");

  let values = null;
  let at = 0;
  let speak = 0;

  function takeSection(keep) {
    const holder = $("#values");
    if (!holder) { values = null; return; }
    values = JSON.parse(holder.textContent);
    const start = Number($("#section").dataset.start);
    const index = keep === null ? start : nearest(keep);
    stand(index, false);
  }

  function nearest(station) {
    let best = 0;
    values.stations.forEach((one, index) => {
      if (Math.abs(one - station) < Math.abs(values.stations[best] - station)) best = index;
    });
    return best;
  }

  // Put the cursor at a station and say what stands there.
  function stand(index, aloud) {
    if (!values) return;
    at = Math.max(0, Math.min(values.stations.length - 1, index));
    const label = values.labels[at];
    const slider = $("#station");
    slider.value = at;
    slider.setAttribute("aria-valuetext", label);
    $(".plumb").style.setProperty("--at", values.shares[at]);
    all(".here").forEach((one) => { one.textContent = label; });
    const opened = $("#station-opened");
    if (opened) opened.href = opened.dataset.opens + encodeURIComponent(label);
    all("[data-row]").forEach((one) => {
      const row = values.rows[one.dataset.row];
      if (row) one.textContent = row[at];
    });
    if (aloud) {
      clearTimeout(speak);
      speak = setTimeout(() => { $("#live").textContent = words(); }, 350);
    }
  }

  function words() {
    const rows = all(".readout tr").map((row) => [row.cells[0].textContent, row.cells[1].textContent]);
    const known = rows.filter(([, text]) => text !== "–");
    return `Station ${values.labels[at]}. ` + known.map(([name, text]) => `${name} ${text}`).join("; ");
  }

  function overPlot(event) {
    const plot = $(".ruler .plot");
    if (!plot) return null;
    const box = plot.getBoundingClientRect();
    const share = (event.clientX - box.left) / box.width;
    return share < -0.01 || share > 1.01 ? null : share;
  }

  function follow(event) {
    if (!values || !event.target.closest(".bands")) return;
    const share = overPlot(event);
    if (share === null) return;
    const last = values.shares.length - 1;
    let index = Math.round(share * last);
    while (index > 0 && values.shares[index] > share) index -= 1;
    while (index < last && values.shares[index + 1] - share < share - values.shares[index]) index += 1;
    if (index !== at) stand(index, true);
  }

  document.addEventListener("pointermove", follow);
  document.addEventListener("pointerdown", follow);
  document.addEventListener("input", (event) => {
    if (event.target.id === "station") stand(Number(event.target.value), true);
  });

  document.addEventListener("keydown", (event) => {
    if (!values || event.altKey || event.ctrlKey || event.metaKey) return;
    if (event.target.closest("input, select, textarea")) {
      if (event.target.id !== "station") return;
    }
    const page = Math.max(1, Math.round(values.stations.length / 20));
    const steps = { ArrowLeft: -1, ArrowRight: 1, PageUp: page, PageDown: -page };
    const onSlider = event.target.id === "station";
    if (!onSlider && !["ArrowLeft", "ArrowRight"].includes(event.key)) return;
    let index = at;
    if (event.key in steps) index += steps[event.key] * (event.shiftKey ? 10 : 1);
    else if (event.key === "Home") index = 0;
    else if (event.key === "End") index = values.stations.length - 1;
    else return;
    event.preventDefault();
    stand(index, true);
  });

  // A link to a place along the strip, and one to a finding, which is opened.
  function openTarget() {
    const target = location.hash.length > 1 && document.getElementById(location.hash.slice(1));
    if (target && target.tagName === "DETAILS") target.open = true;
  }
  document.addEventListener("click", (event) => {
    const asked = event.target.closest("[data-query]");
    if (asked && document.body.classList.contains("is-old")) event.preventDefault();
    const link = event.target.closest("a[href^='#']");
    if (!link) return;
    if (link.dataset.at && values) stand(nearest(Number(link.dataset.at)), true);
    const target = document.getElementById(link.getAttribute("href").slice(1));
    if (target && target.tagName === "DETAILS") target.open = true;
  });
  window.addEventListener("hashchange", openTarget);

  // Paper shows what is open on the page; one button opens every check.
  document.addEventListener("click", (event) => {
    const button = event.target.closest(".open-all");
    if (!button) return;
    const open = button.getAttribute("aria-pressed") !== "true";
    all(".findings > .finding").forEach((one) => { one.open = open; });
    button.setAttribute("aria-pressed", String(open));
    button.textContent = open ? "Close every check" : "Open every check";
  });

  // Answers in place. While a new answer is worked out, or when there is none,
  // the old one is marked as old.
  const bench = $("#bench");
  // Pauses of the keys after which an answer is asked for, and a mistake told, ms.
  const PAUSE = 120;
  const UNFINISHED = 600;
  let running = null;
  let touched = 0;
  let asked = 0;
  let clock = 0;
  let high = [];

  function address() {
    const query = new URLSearchParams();
    new FormData(bench).forEach((value, key) => { if (value.trim()) query.set(key, value.trim()); });
    const text = query.toString();
    return bench.getAttribute("action") + (text ? "?" + text : "");
  }

  function markOld(word) {
    document.body.classList.add("is-old");
    const place = $(".old-word");
    if (place) place.textContent = word;
    $("#rest")?.setAttribute("aria-busy", "true");
  }

  function settle() {
    clearInterval(clock);
    document.body.classList.remove("is-old", "rest-is-old");
    $("#rest")?.removeAttribute("aria-busy");
  }

  async function ask() {
    const url = address();
    const mine = ++asked;
    running?.abort();
    running = new AbortController();
    clearInterval(clock);
    const begun = performance.now();
    // What is not laid out yet will keep its height, so that nothing moves under the reader.
    high = all("#rest > .by-sight").map((one) => one.offsetHeight);
    const took = Number($("#answer")?.dataset.took) || 0;
    const usual = took ? `; the last took ${took.toFixed(1)} s` : "";
    const say = () => {
      const since = ((performance.now() - begun) / 1000).toFixed(1);
      markOld(`Old answer: it is for the values before. Working out the new one, ${since} s${usual}.`);
    };
    say();
    clock = setInterval(say, 100);
    let fresh;
    try {
      // The answer is seen as soon as it is there; what explains it follows.
      const soon = part("answer", url);
      const sheet = part("sheet", url);
      sheet.catch(() => {});
      fresh = parsed(await soon);
      if (mine !== asked) return;
      if ($("#answer .verdict", fresh)) {
        takeEarly(fresh, performance.now() - begun);
        fresh = parsed(await sheet);
      } else {
        // A value half written is not held against its writer.
        await new Promise((later) => setTimeout(later, touched + UNFINISHED - performance.now()));
      }
    } catch (error) {
      if (mine !== asked) return;
      clearInterval(clock);
      markOld("Old answer: it is for the values before. The program does not answer; is it still running?");
      return;
    }
    if (mine !== asked) return;
    clearInterval(clock);
    takeFields(fresh);
    if (!$("#rest", fresh)) {
      markOld("Old answer: it is for the values before. " + ($(".unanswered p, .lead", fresh)?.textContent ?? ""));
      return;
    }
    takeSheet(fresh, url);
    // What is seen is drawn before more is asked for: both would wait for each other.
    await drawn();
    if (mine !== asked) return;
    try {
      const bases = part("bases", url);
      const advice = part("advice", url);
      advice.catch(() => {});
      const opened = parsed(await bases);
      if (mine !== asked) return;
      takeBases(opened);
      const last = parsed(await advice);
      if (mine === asked && $("#advice", last)) takeAdvice(last);
    } catch {
      if (mine !== asked) return;
      leaveUnopened("the program does not answer. Load the page again.");
      $("#advice p").textContent = "What would turn the answer was not worked out: the program does not answer.";
    }
  }

  // Steps down to the files take the place of a figure's own; the link leads to a page of
  // them. Files may have changed since: only what opens the same words is taken.
  document.addEventListener("click", async (event) => {
    const link = event.target.closest("a.deeper");
    if (!link || event.ctrlKey || event.metaKey || event.shiftKey || event.altKey) return;
    event.preventDefault();
    const mine = $("summary", link.closest(".finding")).textContent;
    link.setAttribute("aria-busy", "true");
    try {
      const page = parsed(await (await fetch(link.href, { cache: "no-store" })).text());
      const there = all(".finding", page).find((one) => $("summary", one).textContent === mine);
      if (!there) throw new Error("the files have changed");
      const down = $(".basis", there);
      link.closest(".basis").replaceWith(down);
      down.tabIndex = -1;
      down.focus();
    } catch {
      location.assign(link.href);
    }
  });

  // After the next frame is drawn; soon where none is, as in a window out of sight.
  function drawn() {
    return new Promise((done) => {
      requestAnimationFrame(() => setTimeout(done, 0));
      setTimeout(done, 100);
    });
  }

  async function part(name, url) {
    const open = all(".finding[open]").map((one) => one.id.replace("f-", "")).join();
    const headers = { "x-hardpan-part": name, "x-hardpan-open": open };
    // A browser holds back a second request to an address that it may keep.
    return (await fetch(url, { signal: running.signal, headers, cache: "no-store" })).text();
  }

  const parsed = (text) => new DOMParser().parseFromString(text, "text/html");

  function takeEarly(early, after) {
    clearInterval(clock);
    takeFields(early);
    takeAnswer(early);
    $("header .links").replaceWith($("header .links", early));
    document.body.classList.remove("is-old");
    document.body.classList.add("rest-is-old");
    delete document.body.dataset.advised;
    document.body.dataset.answeredAfter = after.toFixed(0);
    $("#rest")?.setAttribute("aria-busy", "true");
  }

  function takeAnswer(fresh) {
    const open = $("#why")?.open;
    $("#answer").replaceWith($("#answer", fresh));
    if (open && $("#why")) $("#why").open = true;
  }

  function takeSheet(fresh, url) {
    const open = all("#rest details[open]").map((one) => one.id).filter(Boolean);
    const station = values ? values.stations[at] : null;
    const rest = $("#rest", fresh);
    all(":scope > .by-sight", rest).forEach((one, index) => {
      if (high[index]) one.style.containIntrinsicBlockSize = `auto ${high[index]}px`;
    });
    $("#rest").replaceWith(rest);
    open.forEach((id) => { const one = document.getElementById(id); if (one) one.open = true; });
    settle();
    takeSection(station);
    history.replaceState(null, "", url);
  }

  // What each check opens to, where it is not there yet. Files may have changed since
  // the sheet was asked for: only what opens the same words is taken.
  function takeBases(fresh) {
    all(".opened.follows").forEach((one) => {
      const there = fresh.getElementById(one.parentElement.id);
      const isSame = there && $("summary", there).textContent === $("summary", one.parentElement).textContent;
      if (isSame) one.replaceWith($(".opened", there));
    });
    leaveUnopened("the files have changed since. Load the page again.");
  }

  function leaveUnopened(why) {
    all(".opened.follows p").forEach((one) => { one.textContent = `How this comes about was not worked out: ${why}`; });
  }

  // What was tried comes last; the answer itself is the same, with the account of it.
  function takeAdvice(fresh) {
    takeAnswer(fresh);
    for (const place of ["#advice", "#other-figures"]) $(place).replaceWith($(place, fresh));
    document.body.dataset.advised = "yes";
  }

  // What is wrong with each value, and what the files have.
  function takeFields(fresh) {
    all(".field", bench).forEach((field) => {
      const input = $("input, select", field);
      const other = fresh.getElementById(input.id);
      if (!other) return;
      all(".was, .wrong", field).forEach((one) => one.remove());
      all(".was, .wrong", other.closest(".field")).forEach((one) => field.append(one));
      field.classList.toggle("stated", input.value.trim() !== "");
      for (const name of ["aria-invalid", "aria-describedby"]) {
        if (other.hasAttribute(name)) input.setAttribute(name, other.getAttribute(name));
        else input.removeAttribute(name);
      }
    });
  }

  if (bench) {
    // On a small screen the values make room for the strip, unless one is stated.
    const stated = $(".stated, .wrong", bench);
    if (!stated && matchMedia("(max-width: 44rem)").matches) $("#fold").open = false;
    let wait = 0;
    let waits = false;
    const soon = (delay) => {
      clearTimeout(wait);
      wait = setTimeout(() => { waits = false; ask(); }, delay);
    };
    bench.addEventListener("input", (event) => {
      markOld("Old answer: it is for the values before.");
      touched = performance.now();
      // What is on its way is for the values before and is not taken.
      asked += 1;
      running?.abort();
      clearInterval(clock);
      waits = true;
      soon(event.target.tagName === "SELECT" ? 0 : PAUSE);
    });
    bench.addEventListener("change", () => { if (waits) soon(0); });
    bench.addEventListener("submit", (event) => { event.preventDefault(); soon(0); });
    $(".reset", bench).addEventListener("click", (event) => {
      event.preventDefault();
      all("input[type=text], select", bench).forEach((one) => { one.value = ""; });
      soon(0);
    });
  }

  // A file on its way shows how far it is; the answer takes the place of the form.
  document.addEventListener("submit", (event) => {
    const form = event.target;
    if (!form.matches("form.bring")) return;
    event.preventDefault();
    const say = (words) => { $(".bring-state", form).textContent = words; };
    const file = form.elements.file.files[0];
    const most = Number(form.dataset.most);
    if (file && file.size > most) {
      say(`The file has ${megabytes(file.size)}; at most ${megabytes(most)} are taken. Nothing was sent.`);
      return;
    }
    const share = $(".bring-share", form);
    const button = $("button", form);
    const written = [...new FormData(form)].filter(([name]) => name !== "file" && name !== "token");
    const request = new XMLHttpRequest();
    request.open("POST", form.action);
    request.upload.addEventListener("progress", (step) => {
      share.hidden = false;
      share.value = step.total ? step.loaded / step.total : 0;
      say(step.loaded < step.total
        ? `${megabytes(step.loaded)} of ${megabytes(step.total)} sent.` : "All of it is there; it is being read.");
    });
    request.addEventListener("load", () => {
      const fresh = new DOMParser().parseFromString(request.responseText, "text/html");
      const main = $("main", fresh);
      if (!main) { button.disabled = false; say(request.responseText.slice(0, 300)); return; }
      $("main").replaceWith(main);
      const again = $("form.bring");
      written.forEach(([name, value]) => { if (again?.elements[name]) again.elements[name].value = value; });
      const word = $("main .wrong, main .lead");
      if (word) { word.tabIndex = -1; word.focus(); }
    });
    request.addEventListener("error", () => {
      button.disabled = false;
      share.hidden = true;
      say("The connection broke before all of it was there. Nothing was kept; try again.");
    });
    button.disabled = true;
    say("Sending …");
    request.send(new FormData(form));
  });
  const megabytes = (bytes) => `${(bytes / 1048576).toFixed(1)} MB`;

  takeSection(null);
  openTarget();
})();
