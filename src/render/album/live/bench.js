// Records from a page. What is entered waits in this device until podbook answers that it is in the book: an entry bears an
// id, so that sending it again does no harm. Plain HTTP gives no service worker; the open page is what works without network.
"use strict";
(function () {
  function meta(name) {
    var of = document.querySelector('meta[name="podbook-' + name + '"]');
    return of ? of.content : "";
  }
  var token = meta("token"), root = meta("root"), plant = meta("plant");
  var registry = meta("registry"), named = meta("name");
  var KEY = "podbook-waits";

  // Today where podbook runs: the day it named last, with the seconds until its midnight, and the days that ended there since.
  // A page stays open for days, and the midnights of this device are others: it may stand in another time zone.
  var clock = {};
  function setClock(words) { if (words) { clock = { day: words.split(" ")[0], left: words.split(" ")[1], at: Date.now() }; } }
  function today() {
    var over = Date.now() - clock.at - clock.left * 1000, days = over >= 0 ? 1 + Math.floor(over / 864e5) : 0;
    return new Date(Date.parse(clock.day + "T00:00:00Z") + days * 864e5).toISOString().slice(0, 10);
  }
  setClock(meta("day"));

  // Elements are made of words only: nothing entered is ever read as HTML.
  function make(name, words, marks) {
    var of = document.createElement(name);
    if (words) { of.textContent = words; }
    Object.keys(marks || {}).forEach(function (mark) { of.setAttribute(mark, marks[mark]); });
    return of;
  }
  function put(into) {
    Array.prototype.slice.call(arguments, 1).forEach(function (of) { if (of) { into.appendChild(of); } });
    return into;
  }
  function button(words, act, marks) {
    var of = make("button", words, marks);
    of.type = "button";
    of.addEventListener("click", act);
    return of;
  }
  function newId() {
    var bytes = crypto.getRandomValues(new Uint8Array(16));
    return Array.prototype.map.call(bytes, function (byte) { return ("0" + byte.toString(16)).slice(-2); }).join("");
  }

  // What has the focus was taken away: it goes on here, where Enter does nothing.
  function land(of) {
    of.tabIndex = -1;
    of.focus({ preventScroll: !bar.contains(of) });
  }
  // What is read aloud stands in the page from the start, since only what changes in it is.
  var spoken = put(document.body, make("div", "", { "class": "aloud", role: "log" })).lastChild;
  function speak(words) {
    put(spoken, make("p", words));
    if (spoken.children.length > 3) { spoken.firstChild.remove(); }
  }

  // ---- taps that bounce -------------------------------------------------------------------------------------------
  // Wet fingers bounce and hands shake: what a tap has drawn under the finger takes no tap at once. Digits may follow each
  // other. A click without a place is one of the keyboard, where another key in between says that it is meant.
  var BOUNCE = 500, NEAR = 48, tapped = { at: -BOUNCE };
  document.addEventListener("click", function (event) {
    var of = event.target.closest("button"), digits = of && of.closest(".digits");
    var isNear = Math.hypot(event.clientX - tapped.x, event.clientY - tapped.y) < NEAR;
    var bounced = event.timeStamp - tapped.at < BOUNCE && isNear && !(digits && digits === tapped.digits);
    if (!event.isTrusted) { return; }
    if (bounced) {
      tapped.at = event.timeStamp;
      event.preventDefault();
      event.stopPropagation();
    } else if (of) {
      tapped = { at: event.timeStamp, x: event.clientX, y: event.clientY, digits: digits };
    }
  }, true);
  document.addEventListener("keydown", function (event) {
    if (event.key !== "Enter" && event.key !== " ") { tapped.at = -BOUNCE; }
    else if (event.repeat && event.target.closest("button")) { event.preventDefault(); }
  }, true);

  // ---- what waits -------------------------------------------------------------------------------------------------
  // Each entry stands under a key of its own, so that two pages of one device take nothing from each other.
  function waiting() {
    var all = [];
    for (var at = 0; at < localStorage.length; at += 1) {
      var key = localStorage.key(at);
      if (key.indexOf(KEY + ":") === 0) {
        try { all.push(JSON.parse(localStorage.getItem(key))); } catch (_) { /* not written by this page */ }
      }
    }
    return all.sort(function (a, b) { return a.at - b.at || (a.entry.id < b.entry.id ? -1 : 1); });
  }
  // Another registry may answer at the address of the one that an entry was meant for.
  function isOfAnother(item) { return (item.registry || "") !== registry; }
  // Refused, or asked about: it waits for its owner.
  function isStuck(item) { return Boolean(item.refused || item.sure); }
  function keep(item) { localStorage.setItem(KEY + ":" + item.entry.id, JSON.stringify(item)); }
  function drop(id) { localStorage.removeItem(KEY + ":" + id); }

  var listeners = [];
  function tell(item, state, answer) {
    listeners.forEach(function (listen) { listen(item, state, answer); });
  }

  // An entry is kept before anything is sent, and before those go whose place among the others it takes.
  function enter(entry, label, picture, page, instead) {
    entry.id = newId();
    var last = waiting().pop();
    var at = instead && instead.length ? instead[0].at : Math.max(Date.now(), last ? last.at + 1 : 0);
    var item = { entry: entry, label: label, at: at, picture: picture || null,
      registry: registry, named: named, page: page || null };
    try {
      keep(item);
    } catch (_) {
      say("This device has no room left for what waits. It was not kept: connect, then enter it again.", true);
      return null;
    }
    told = told.filter(function (of) { return !of.item; });
    (instead || []).forEach(function (old) { drop(old.entry.id); tell(old, "dropped"); });
    tell(item, "waits");
    show();
    send();
    return item;
  }

  function keyOfRow(item) { return item.entry.kind === "measure" && item.registry + " " + item.entry.plant + " " + item.entry.on; }
  // An entry of a row goes after the one before it: it was made of what that one was to leave. One that was given back holds up
  // only a death, behind which its readings would no longer fit.
  function isDeath(entry) { return ["dead", "died", "†"].indexOf((entry.line || "").trim().toLowerCase()) >= 0; }
  function isHeld(item, all) {
    return isDeath(item.entry) && !isStuck(item) && all.some(function (of) { return of.at < item.at && isStuck(of) && keyOfRow(of) === keyOfRow(item); });
  }

  var sending = false, offline = false, atDoor = "", pause = 1000, timer = null;
  function later() {
    clearTimeout(timer);
    timer = setTimeout(send, pause);
    pause = Math.min(pause * 2, 15000);
  }
  function send() {
    if (sending) { return; }
    var rows = {}, open = waiting().filter(function (item, _, all) {
      var key = keyOfRow(item);
      if (isOfAnother(item) || isStuck(item) || isHeld(item, all) || (key && rows[key])) { return false; }
      if (key) { rows[key] = true; }
      return true;
    });
    if (!open.length) { return; }
    sending = true;
    var first = open[0], call;
    if (first.picture) {
      call = ask("photo?" + new URLSearchParams(first.entry), bytesOf(first.picture)).then(function (of) { return [of]; });
      open = [first];
    } else {
      var end = open.findIndex(function (item) { return item.picture; });
      open = open.slice(0, end < 0 ? 20 : Math.min(end, 20));
      call = ask("entries", JSON.stringify(open.map(function (item) { return item.entry; })));
    }
    call.then(function (answers) {
      sending = false; offline = false; atDoor = ""; pause = 1000;
      var again = false;
      open.forEach(function (item, at) { again = settle(item, answers[at]) || again; });
      show();
      if (again) { later(); } else { send(); }
    }, function (why) {
      sending = false;
      offline = !why.status;
      atDoor = why.words || "";
      show();
      later();
    });
  }
  // Whether the entry is to be sent again.
  function settle(item, answer) {
    if (answer.state === "recorded") {
      drop(item.entry.id);
      var report = answer.report, look = (report.remarks || []).concat(report.warnings || []);
      say([report.recorded].concat((report.write_down || []).map(function (of) {
        return "Write on the " + of.on + ": " + of.code;
      }), look.map(function (of) { return "! " + of; })), false, report.change);
    } else if (answer.state === "later") {
      say(answer.words, true);
      return true;
    } else {
      item[answer.state === "sure" ? "sure" : "refused"] = answer.words;
      item.there = answer.there;
      keep(item);
      speak("Not in the book: " + item.label + ". " + answer.words);
    }
    tell(item, answer.state, answer);
    if (answer.state === "recorded") { (plant ? renew : renewRecent)(); }
    return false;
  }
  // This page as podbook shows it now.
  function asItIs() {
    return fetch(location.href, { credentials: "same-origin", cache: "no-store" }).then(function (answer) {
      return answer.ok ? answer.text() : "";
    }).then(function (text) { return offered(new DOMParser().parseFromString(text, "text/html")); });
  }
  // What does nothing without this program is hidden until it runs.
  function offered(page) {
    page.querySelectorAll("[data-program]").forEach(function (of) { of.hidden = false; });
    return page;
  }
  // The list under Record of what was recorded last.
  function renewRecent() {
    if (!trays) { return; }
    asItIs().then(function (page) {
      var fresh = page.getElementById("recent"), old = document.getElementById("recent"), main = document.getElementById("main");
      var had = old && old.parentNode.contains(document.activeElement);
      if (old) { old.parentNode.remove(); }
      if (fresh) { main.insertBefore(fresh.parentNode, main.lastElementChild); }
      if (had) { land(fresh || main.querySelector("h1")); }
    }).catch(function () { /* the old list is better than none */ });
  }
  // The page of a plant says what is on record now; the forms on it stay as they are.
  function renew() {
    asItIs().then(function (page) {
      var fresh = page.getElementById("main"), main = document.getElementById("main");
      var own = document.getElementById("happened");
      if (!fresh || !own) { return; }
      own = own.parentNode;
      if (leavesOf(page) !== leaves) { offer(page); }
      Array.prototype.slice.call(main.children).forEach(function (of) { if (of !== own) { of.remove(); } });
      var before = true;
      Array.prototype.slice.call(fresh.children).forEach(function (of) {
        if (before) { main.insertBefore(of, own); } else { main.appendChild(of); }
        if (of.classList.contains("top")) { before = false; }
      });
    }).catch(function () { /* the old page is better than none */ });
  }
  function ask(path, body) {
    return fetch(root + path, {
      method: "POST", body: body, headers: { "X-Podbook-Token": token }, credentials: "same-origin", cache: "no-store"
    }).then(function (answer) {
      setClock(answer.headers.get("X-Podbook-Day"));
      if (answer.ok) { return answer.json(); }
      return answer.text().then(function (text) {
        var page = new DOMParser().parseFromString(text, "text/html");
        throw { status: answer.status, words: (page.querySelector("main p") || page.body).textContent };
      });
    });
  }

  // ---- the line at the foot ---------------------------------------------------------------------------------------
  var bar = make("div", "", { id: "waits", role: "region", "aria-label": "What waits", hidden: "" });
  var state = make("p", "", { id: "state" }), said = make("div"), list = make("ul");
  put(document.body, put(bar, put(make("div"), state, said, list)));
  // What takes the focus is scrolled to above the foot, with its outline.
  if (window.ResizeObserver) {
    new ResizeObserver(function () { document.documentElement.style.scrollPaddingBottom = bar.offsetHeight + 8 + "px"; }).observe(bar);
  }
  // The newest first. What is to be written down or looked at stays until it is hidden, in this window also when a page is
  // loaded anew, or another one is. What was discarded can be taken back until something else is entered; all else gives way to
  // what comes next.
  var TOLD = KEY + "-told:" + registry, told = [];
  try { told = JSON.parse(sessionStorage.getItem(TOLD)) || []; } catch (_) { /* not written by this page */ }
  function isToNote(of) { return of.lines.length > 1; }
  function say(words, bad, change) {
    told = told.filter(function (of) { return isToNote(of) || of.item; });
    if (!words || !words.length) { return; }
    told.unshift({ lines: [].concat(words), bad: bad, change: change || null });
    speak(told[0].lines.join(". "));
  }
  function hide(of) { told = told.filter(function (other) { return other !== of; }); show(); }
  // Lines that say what they said stay, with the focus on them.
  function redraw(place, items, keyOf, draw) {
    var old = Array.prototype.slice.call(place.children), lines = items.map(function (item) {
      var key = keyOf(item), line = old.find(function (of) { return of.key === key; }) || draw(item);
      line.key = key;
      return line;
    });
    old.forEach(function (of) { if (lines.indexOf(of) < 0) { of.remove(); } });
    lines.forEach(function (line, at) { if (place.children[at] !== line) { place.insertBefore(line, place.children[at] || null); } });
  }
  function linesOfBar() { return Array.prototype.slice.call(bar.querySelectorAll(".said, li")); }
  function show() {
    var items = waiting(), before = linesOfBar().findIndex(function (of) { return of.contains(document.activeElement); });
    var astray = items.filter(isOfAnother);
    try { sessionStorage.setItem(TOLD, JSON.stringify(told.filter(isToNote))); } catch (_) { /* it stays on this page */ }
    var bad = items.filter(function (item) { return isStuck(item) && !isOfAnother(item); }).reverse();
    var count = items.length - bad.length - astray.length;
    bar.hidden = !items.length && !told.length;
    var words = count ? count + (count === 1 ? " entry is" : " entries are") + " not in the book yet" : "";
    if (count && offline) { words += ": podbook does not answer. " + (count === 1 ? "It is kept on this device and sent" : "They are kept on this device and sent") + " when podbook does."; }
    var held = items.filter(function (item) { return isHeld(item, items) && !isOfAnother(item); });
    words += held.map(function (item) { return ". The death of " + item.entry.plant + " waits until the row below is recorded or discarded"; }).join("");
    // Said for as long as something waits.
    atDoor = count ? atDoor : "";
    words += atDoor && ". " + atDoor;
    state.className = atDoor && "bad";
    if (state.textContent !== words) {
      state.textContent = words;
      if (words && (offline || atDoor)) { speak(words); }
    }
    redraw(said, told, function (of) { return of; }, toldLine);
    Array.prototype.forEach.call(said.children, function (line, at) { line.id = at ? "said-" + at : "said"; });
    redraw(list, bad.concat(astray), function (item) { return JSON.stringify([item, isInForm(item)]); }, function (item) {
      return isOfAnother(item) ? strange(item) : trouble(item);
    });
    list.hidden = !list.firstChild;
    // The line with the focus is gone: the one in its place, or what the page is about.
    if (before >= 0 && !bar.contains(document.activeElement)) {
      var lines = linesOfBar();
      land(lines[Math.min(before, lines.length - 1)] || (bar.hidden ? document.getElementById("happened") || document.querySelector("main h1") : state));
    }
  }
  function toldLine(of) {
    var line = make("div", "", { "class": of.bad ? "said bad" : "said" });
    of.lines.forEach(function (words) { put(line, make("p", words)); });
    if (of.bad) { return line; }
    var acts = make("div", "", { "class": "do" });
    if (of.change) {
      put(acts, button("Undo", function () {
        hide(of);
        enter({ kind: "undo", change: of.change }, "Undo change " + of.change);
      }, { "class": "undo-it" }));
    }
    if (of.item) {
      put(acts, button("Take it back", function () {
        keep(of.item);
        tell(of.item, "waits");
        hide(of);
        send();
      }));
    }
    return put(line, put(acts, button("Hide", function () { hide(of); })));
  }
  // What was entered, so that it can be entered again.
  function typed(item) {
    var left = ["id", "kind", "plant", "change", "sure", "traits", "cells", "seen", "line", "entered"], entry = item.entry;
    var parts = Object.keys(entry).filter(function (name) { return left.indexOf(name) < 0; });
    return item.label + parts.map(function (name) { return "; " + labelOf(entry, name) + ": " + (entry[name] === true ? "yes" : entry[name]); }).join("");
  }
  // The label of a field without its example.
  function labelOf(entry, name) {
    var of = EVENTS.find(function (of) { return of[0] === entry.kind; });
    var field = of && of[2].find(function (field) { return field[0].replace("*", "") === name; });
    return field ? field[1].split(/[:,;]/)[0] : { on: "Day", again: "in place of the row on record", light: "Light", note: "Shows" }[name] || name;
  }
  function strange(item) {
    var line = make("li"), acts = make("div", "", { "class": "do" }), ours = named || "this registry";
    var theirs = item.registry && item.named ? item.named : "another registry";
    put(line, make("p", typed(item)), make("p", "This waits for " + theirs + " and is not sent to " + ours + ". It will be sent when " + theirs + " answers here again.",
      { "class": "bad" }), acts);
    return put(line, put(acts, button("Send it to " + ours, function () {
      item.registry = registry;
      again(item);
    }), button("Discard it", function () { giveUp(item); })));
  }
  function trouble(item) {
    var line = make("li"), acts = make("div", "", { "class": "do" }), why = item.refused || item.sure;
    put(line, make("p", typed(item)), make("pre", why, { "class": why.indexOf("^") < 0 ? "bad" : "bad page" }), acts);
    if (isInForm(item)) { return put(line, make("p", "Change it in its form and tap Record.")); }
    if (item.sure) {
      put(acts, button("Yes, record it", function () {
        item.entry.sure = true;
        again(item);
      }, { "class": "main-act" }), change(item));
    } else if (item.there) {
      put(acts, button(item.there === "replace" ? "Change it to mine" : "Add mine to it", function () {
        item.entry.again = true;
        delete item.entry.seen;
        again(item);
      }, { "class": "main-act" }));
    } else {
      put(acts, change(item), button("Try again", function () { again(item); }));
    }
    put(acts, button("Discard it", function () { giveUp(item); }));
    return line;
  }
  function giveUp(item) {
    drop(item.entry.id);
    tell(item, "dropped");
    say("Gave up: " + typed(item));
    told[0].item = item;
    show();
    send();
  }
  // The entry that stands in its form, to be changed. It waits as it was until the changed one is kept.
  var inForm = null;
  function isInForm(item) { return Boolean(inForm) && inForm.id === item.entry.id && inForm.ask.isConnected; }
  // Puts a form in the place of the one before; not if something was typed into that one and is to stay.
  function openForm(place, ask) {
    if (place.querySelector("[data-begun]") && !confirm("Leave the form you began? What you typed there is lost.")) { return false; }
    place.replaceChildren(ask);
    return true;
  }
  // An event goes back into its form, which is on the page of the plant.
  var openRow = null;
  function change(item) {
    var row = openRow && openRow(item);
    if (row) { return button("Change it", row); }
    var of = EVENTS.find(function (of) { return of[0] === item.entry.kind; });
    if (!of) { return null; }
    var home = item.page || item.entry.plant || "";
    if (home === plant && document.getElementById("form")) {
      return button("Change it", function () {
        var place = document.getElementById("form"), ask = form(of, place, item);
        if (!openForm(place, ask)) { return; }
        inForm = { id: item.entry.id, ask: ask };
        show();
        place.scrollIntoView();
        place.querySelector("input,select").focus();
      });
    }
    var door = make("a", home ? "Find " + home : "Open Record");
    door.href = root + (home ? "find?q=" + encodeURIComponent(home) : "record");
    return door;
  }
  function again(item) {
    delete item.sure;
    delete item.refused;
    delete item.there;
    keep(item);
    tell(item, "waits");
    show();
    send();
  }

  // ---- pictures ---------------------------------------------------------------------------------------------------
  // Drawn anew and smaller: quick to send, small to keep, and nothing of what the camera wrote beside it.
  function smaller(file, then) {
    var address = URL.createObjectURL(file), image = new Image();
    image.onload = function () {
      var scale = Math.min(1, 1600 / Math.max(image.naturalWidth, image.naturalHeight));
      var canvas = document.createElement("canvas");
      canvas.width = Math.round(image.naturalWidth * scale);
      canvas.height = Math.round(image.naturalHeight * scale);
      canvas.getContext("2d").drawImage(image, 0, 0, canvas.width, canvas.height);
      URL.revokeObjectURL(address);
      then(canvas.toDataURL("image/jpeg", 0.82));
    };
    image.onerror = function () {
      URL.revokeObjectURL(address);
      say("This picture cannot be opened. Take it as JPEG.", true);
      show();
    };
    image.src = address;
  }
  function bytesOf(picture) {
    var text = atob(picture.slice(picture.indexOf(",") + 1)), bytes = new Uint8Array(text.length);
    for (var at = 0; at < text.length; at += 1) { bytes[at] = text.charCodeAt(at); }
    return bytes;
  }
  // `said` are the fields that stand beside the photo: what it shows, and its light; `taken` is called once it is kept.
  function photoOf(code, on, said, taken) {
    return function (event) {
      var file = event.target.files[0];
      event.target.value = "";
      if (file) {
        smaller(file, function (picture) {
          var entry = { kind: "photo", plant: code, on: on() };
          Object.keys(said).forEach(function (name) { if (said[name].value.trim()) { entry[name] = said[name].value.trim(); } });
          if (enter(entry, "Photo of " + code, picture)) { taken(); }
        });
      }
    };
  }

  // ---- events on the page of a plant ------------------------------------------------------------------------------
  // A field: name, its label, what it may hold (choices, number, yes), and when it is asked for: the field before, and its
  // choices. A field with a * behind its name cannot be left out.
  var PIECE = ["piece", "Piece, where there are several, such as b"];
  var SPIKE = ["spike", "Spike, where there are several, such as 25a"];
  var FATE = [["fate*", "What became of it", [["", "choose"], "died", "culled", "sold", "given", "lost"]],
    ["why", "Why", null, ["fate", ["died", "culled", "lost"]]], ["to", "Who has it now", null, ["fate", ["sold", "given"]]],
    ["price", "Price", null, ["fate", ["sold", "given"]]], ["label", "Words on the tag it left with", null, ["fate", ["sold", "given"]]]];
  var EVENTS = [
    ["flower", "Flowered", [["saw*", "What you saw", [["", "choose"], ["bud", "a new spike, still closed"], ["open", "open flowers"],
      ["opened", "its first flower, opened that day"], ["over", "its last flower, over that day"]]],
      ["sex", "Sex the open flowers show", [["", "not seen"], "female", "male"], ["saw", ["open", "opened", "over"]]],
      SPIKE, PIECE, ["note", "Remark"]]],
    ["collect", "Pollen collected", [["stored", "Where it is kept", [["", "not recorded"], ["fresh", "used from the flower"], ["room", "at room temperature, dry"], "fridge", "freezer"]],
      ["dried", "How it was dried"], ["code", "Code of the envelope; empty for the plant's code and the month"], PIECE, ["note", "Remark"]]],
    ["pollinate", "Pollinated", [["with*", "Pollen: envelope or plant; one of several plants: Spa1,Tru1; several mixed together: Spa1+Tru1"], ["zone", "Zone, such as red; empty for the next letter"],
      ["flowers", "Flowers treated", "number"], ["controls", "Flowers left as controls", "number"],
      SPIKE, PIECE]],
    ["took", "Flowers that set", [["zone*", "Zone with its cross, such as X24-01.red"], ["pods*", "Flowers that set; none is 0", "number"],
      ["controls", "Controls: set/flowers, such as 0/5"], ["again", "Replace the count on record", "yes"]]],
    ["keep", "To keep", [["why", "Why it is to be kept"], ["no_longer", "Take the mark off", "yes"]]],
    ["gone", "Gone", FATE.concat([PIECE, ["all_pieces", "All of its pieces went", "yes"]])],
    ["back", "Came back", [["place", "Where it stands now"], PIECE, ["note", "Remark"]]],
    ["cutting", "Piece taken", [["made", "How it was made", [["", "a cutting"], ["division", "a division"], ["basal", "a basal shoot"], ["lab_copy", "a laboratory copy"]]],
      ["code", "Letter of the new piece; empty for the next one"], ["place", "Where the new piece stands"], ["piece", "Taken from piece, where there are several, such as b"], ["note", "Remark"]]],
    ["rooted", "Rooted", [PIECE]],
    ["pot", "Potted", [["width*", "Inside width of the pot, such as 9cm"], ["place", "Place, if it changed"], PIECE]],
    ["move", "Moved", [["to*", "Where it stands now"], PIECE]],
    ["seen", "Looked for", [["found*", "Was it there?", [["", "choose"], ["here", "it is here"], ["missing", "it was not found"]]], PIECE]],
    ["treat", "Treated", [["product*", "Product and its registration number; follow its label and your local rules"],
      ["against", "Against what"], ["by", "Who did it: me or a role"], ["note", "Remark"]]],
    ["muddle", "Muddled", [["others*", "Mixed up with, such as X22-02-4"], ["why", "How it happened"]]],
    ["harvest", "Harvested", [["zone*", "Zone with its cross, such as X24-01.red"], ["capsules", "Capsules", "number"],
      ["seeds", "Seeds; an empty pod has 0", "number"], ["estimated", "The number of seeds is a guess", "yes"],
      ["stored", "How the seed is kept"], ["note", "Remark"]]],
    ["sow", "Sown", [["lot*", "Seed with its cross, such as X24-01.L1"], ["seeds", "Seeds", "number"],
      ["container", "Sown in, such as tray 4"], ["medium", "Mix"], ["place", "Place"],
      ["again", "Another pot like the one on record for that day", "yes"], ["note", "Remark"]]],
    ["count", "Counted", [["of*", "Sowing or community pot, such as X24-01.S1"],
      ["up", "Came up so far, dead ones included", "number"], ["standing", "Alive now, without a number", "number"]]],
    ["prick", "Pricked out", [["sowing*", "Sowing with its cross, such as X24-01.S1"], ["moved*", "Seedlings moved", "number"],
      ["left", "Seedlings left behind", "number"], ["to", "Community pot they went to, such as T1; empty for the next"],
      ["pot", "Kind of pot or tray"], ["place", "Place"]]],
    ["number", "Numbered", [["from*", "Community pot or sowing, such as X24-01.T1"], ["numbers*", "Their numbers, such as 1-40"],
      ["pot", "Pot each goes into, such as 5cm"], ["place", "Place"]]],
    ["gone_from", "Seedlings gone", [["pot*", "Community pot or sowing, such as X24-01.T1"], ["seedlings", "How many; empty for all of them", "number"],
      ["fate*", "What became of them", FATE[0][2]]].concat(FATE.slice(1))]
  ];
  // Events of a zone, seed or a tray, whose codes are asked for: they are offered under Record, and on no page of a plant.
  var OF_TRAYS = ["harvest", "sow", "count", "prick", "number", "gone_from"];
  function isOfTrays(of) { return OF_TRAYS.indexOf(of[0]) >= 0; }
  function offerForm(of, buttons, place) {
    put(buttons, button(of[1], function () {
      if (!openForm(place, form(of, place))) { return; }
      show();
      place.querySelector("input,select").focus();
    }, { "data-kind": of[0] }));
  }
  // The page of a plant that died or left offers what can be recorded of the time before, and that it came back.
  var offer = null, isLeft = false, leaves = "";
  function leavesOf(page) {
    var left = page.querySelector('meta[name="podbook-left"]'), own = page.querySelector('meta[name="podbook-plant"]');
    return [left, own && own.dataset.returns !== undefined, own && own.dataset.roots !== undefined, own && own.dataset.lost !== undefined].map(Boolean).join();
  }
  function events(main) {
    var section = make("section", "", { "class": "recording", "aria-labelledby": "happened" });
    var buttons = make("div", "", { "class": "events" }), place = make("div", "", { id: "form" });
    var heading = make("h2", "Record on " + plant, { id: "happened" });
    put(section, heading, buttons, place);
    offer = function (page) {
      var left = page.querySelector('meta[name="podbook-left"]'), own = page.querySelector('meta[name="podbook-plant"]').dataset;
      var focused = document.activeElement && document.activeElement.dataset.kind, had = buttons.contains(document.activeElement);
      buttons.replaceChildren();
      isLeft = Boolean(left);
      leaves = leavesOf(page);
      // A founder is not mixed up, but named anew.
      var mixes = left && left.dataset.mixes !== undefined;
      if (left) { put(buttons, make("p", "It is no longer here." + (mixes ? " You can still record a mix-up from before that." : ""))); }
      if (left && left.content) {
        put(buttons, make("button", "Undo change " + left.content + ", by which it left", { type: "button", "class": "undo", "data-change": left.content }));
      }
      var founder = own.founder !== undefined, returns = own.returns !== undefined;
      EVENTS.filter(function (of) {
        if (isOfTrays(of)) { return false; }
        if (of[0] === "back") { return returns; }
        if (of[0] === "rooted") { return !left && own.roots !== undefined; }
        if (of[0] === "seen") { return !left || own.lost !== undefined; }
        return of[0] === "muddle" ? !founder && (!left || mixes) : !left;
      }).forEach(function (of) { offerForm(of, buttons, place); });
      var next = focused && buttons.querySelector("[data-kind=" + focused + "]");
      if (next) { next.focus({ preventScroll: true }); } else if (had) { land(heading); }
    };
    offer(document);
    // Without `capture` a phone offers the camera and the pictures taken before.
    var file = make("input", "", { type: "file", accept: "image/*", id: "photo" });
    var said = { note: make("input", "", { id: "shows", autocomplete: "off" }), light: make("input", "", { id: "light", autocomplete: "off" }) };
    // The light is that of the photo before: most are taken in one place. The file loses its day where it is drawn smaller.
    var words = make("details"), summary = make("summary"), taken = make("input", "", { type: "date", id: "taken", max: today() });
    function light() {
      var known = [said.light.value, taken.value].filter(Boolean).join(", ");
      summary.textContent = "What the next photo shows, its light and its day" + (known ? ": " + known : "");
    }
    taken.addEventListener("input", light);
    said.light.value = localStorage.getItem(KEY + "-light") || "";
    said.light.addEventListener("input", function () { localStorage.setItem(KEY + "-light", said.light.value); light(); });
    light();
    file.addEventListener("change", photoOf(plant, function () { return taken.value || today(); }, said, function () {
      // The words and the day are of this photo; the light is that of the next one too.
      said.note.value = taken.value = "";
      light();
    }));
    put(words, summary, put(make("div", "", { "class": "ask" }),
      make("label", "Shows, such as newest pitcher", { "for": "shows" }), said.note,
      make("label", "Light, such as LED or daylight", { "for": "light" }), said.light,
      make("label", "Day it was taken, if not today", { "for": "taken" }), taken));
    put(section, words, make("label", "Photo", { "class": "touch", "for": "photo" }), file);
    var top = main.querySelector(".top");
    main.insertBefore(section, top ? top.nextSibling : main.firstChild);
  }
  function input(field) {
    var needed = field[0].indexOf("*") > 0, marks = { id: "f-" + field[0].replace("*", "") }, of;
    if (needed) { marks["aria-required"] = "true"; }
    if (Array.isArray(field[2])) {
      of = make("select", "", marks);
      field[2].forEach(function (choice) {
        var both = Array.isArray(choice) ? choice : [choice, choice];
        put(of, make("option", both[1], { value: both[0] }));
      });
      return of;
    }
    marks.autocomplete = marks.autocapitalize = "off";
    of = make("input", "", marks);
    if (field[2] === "yes") { of.type = "checkbox"; }
    if (field[2] === "number") { of.inputMode = "numeric"; }
    if (field[2] === "day") { of.type = "date"; of.value = field[0] === "on*" ? "" : today(); of.max = today(); }
    return of;
  }
  // An entry names the piece in its code.
  function pieceOf(entry) {
    return entry.plant && entry.plant.indexOf(plant + "-") === 0 ? entry.plant.slice(plant.length + 1) : undefined;
  }
  // The form of an event, filled in with an entry that was given back.
  function form(of, place, item) {
    var ask = put(make("form", "", { "class": "ask" }), make("h3", of[1])), inputs = {}, lines = [], missing = make("p", "", { "class": "bad", id: "missing", role: "alert" });
    var entry = item && item.entry;
    // A place is where a plant stands now; it has no day.
    var day = isLeft && of[0] !== "back" && of[0] !== "seen" ? ["on*", "Day, before it left", "day"] : ["on", "Day", "day"], hasDay = of[0] !== "move";
    of[2].concat(hasDay ? [day] : []).forEach(function (field) {
      var name = field[0].replace("*", ""), at = input(field), label = make("label", field[1], { "for": at.id });
      var given = entry && (name === "piece" ? pieceOf(entry) : entry[name]);
      if (given !== undefined) {
        if (at.type === "checkbox") { at.checked = Boolean(given); } else { at.value = given; }
      }
      inputs[name] = at;
      var needed = field[0] !== name;
      lines.push({ name: name, label: label, at: at, needed: needed, when: field[3] });
      put(ask, needed ? put(label, make("em", "needed")) : label, at);
    });
    function asked(line) { return !line.when || line.when[1].indexOf(inputs[line.when[0]].value) >= 0; }
    function fit() { lines.forEach(function (line) { line.label.hidden = line.at.hidden = !asked(line); }); }
    ask.addEventListener("change", fit);
    function nameDay() {
      lines[lines.length - 1].label.textContent = inputs.again.checked ? "Day, if not that of the count on record" : "Day";
    }
    // A count that is put right is of the day it was counted, unless another day is named.
    if (of[0] === "took") {
      inputs.again.addEventListener("change", function () {
        if (!inputs.again.checked) { inputs.on.value = inputs.on.value || today(); } else if (inputs.on.value === today()) { inputs.on.value = ""; }
        nameDay();
      });
      if (entry && !entry.on) { inputs.on.value = ""; }
      nameDay();
    }
    ask.addEventListener("input", function (event) {
      ask.dataset.begun = "";
      if (event.target.hasAttribute("aria-invalid")) {
        missing.textContent = "";
        event.target.removeAttribute("aria-invalid");
        event.target.removeAttribute("aria-describedby");
      }
    });
    fit();
    // The next entry begins where this one did.
    function leave() {
      var next = document.querySelector(".events [data-kind=" + of[0] + "]");
      place.replaceChildren();
      show();
      if (next) { next.focus({ preventScroll: true }); }
    }
    function record(event) {
      event.preventDefault();
      var open = lines.find(function (line) { return line.needed && asked(line) && !line.at.value.trim(); });
      if (open) {
        // Under the field, where eyes and fingers are.
        open.at.after(missing);
        missing.textContent = "Fill in: " + open.label.firstChild.data;
        open.at.setAttribute("aria-invalid", "true");
        open.at.setAttribute("aria-describedby", "missing");
        open.at.focus({ preventScroll: true });
        open.at.scrollIntoView({ block: "center" });
        missing.scrollIntoView({ block: "nearest" });
        return;
      }
      var entry = { kind: of[0] };
      lines.filter(asked).forEach(function (line) {
        if (line.at.type === "checkbox") { if (line.at.checked) { entry[line.name] = true; } }
        else if (line.at.value.trim()) { entry[line.name] = line.at.value.trim(); }
      });
      if (of[0] !== "took" && !isOfTrays(of)) { entry.plant = entry.piece ? plant + "-" + entry.piece.replace(/^.*-/, "") : plant; }
      delete entry.piece;
      // An entry may wait for days: its day is that on which it was entered.
      if (hasDay && !entry.on) { entry[of[0] === "took" && entry.again ? "entered" : "on"] = today(); }
      if (enter(entry, of[1] + (entry.plant || plant ? ": " + (entry.plant || plant) : ""), null, plant, item && [item])) { leave(); }
    }
    ask.addEventListener("submit", record);
    var go = make("div", "", { "class": "go" });
    return put(ask, put(go, button("Cancel", leave), make("button", "Record", { "class": "main-act", id: "enter" })));
  }

  // ---- the sheet of a sitting -------------------------------------------------------------------------------------
  function sitting(sheet) {
    var columns = Array.prototype.map.call(sheet.querySelectorAll(".columns > li"), function (of) {
      return {
        asked: of.dataset.asked, heading: of.dataset.heading, kind: of.dataset.kind,
        choices: Array.prototype.map.call(of.querySelectorAll("li"), function (choice) {
          return { value: choice.dataset.value, words: choice.textContent };
        })
      };
    });
    var rows = Array.prototype.map.call(sheet.querySelectorAll(".row"), function (of) { return rowOf(of); });

    function rowOf(of) {
      var cells = Array.prototype.slice.call(of.querySelectorAll(".cell"));
      var row = {
        of: of, code: of.dataset.plant, cells: cells, read: of.dataset.read !== undefined, note: of.dataset.note || "",
        state: of.querySelector(".state"), entry: null, at: -1, changed: false, touched: [], seen: [], line: null, given: null, book: [], left: false
      };
      row.book = values(row);
      cells.forEach(function (cell, at) {
        cell.setAttribute("aria-expanded", "false");
        cell.addEventListener("click", function () { open(row, at); });
      });
      return row;
    }
    // Only cells that were touched are sent: the others may have been read elsewhere meanwhile. A cell that was emptied says so.
    function sent(row, again) {
      return row.cells.map(function (cell, at) {
        return row.touched[at] ? cell.querySelector("b").textContent || (again ? "-" : "") : "";
      });
    }
    function values(row) { return row.cells.map(function (cell) { return cell.querySelector("b").textContent; }); }
    function isOf(item, row) { return item.entry.kind === "measure" && item.entry.plant === row.code && item.entry.on === sheet.dataset.on; }
    function waits(row, all) { return (all || waiting()).filter(function (item) { return isOf(item, row) && !isOfAnother(item); }); }
    // Entries of the row on this sheet that were given back: cells, or lines.
    function stuck(row, what) {
      return waits(row).filter(function (item) { return isStuck(item) && item.entry[what] && fits(item) && !isDeath(item.entry); });
    }
    function fits(item) { return item.entry.traits.join() === columns.map(function (of) { return of.asked; }).join(); }
    // Whether the sitting has a row of the plant, or will have one once what waits is sent.
    function hasRow(row) { return row.read || waits(row).some(function (item) { return !isStuck(item); }); }
    // What stands beside a row is what is so: in the book, on its way there, given back.
    function mark(row, all) {
      var items = waits(row, all), bad = items.some(isStuck);
      row.state.textContent = bad ? (row.read ? "not all in the book: see below" : "not in the book: see below")
        : items.length || row.changed ? "not in the book yet" : row.left || (row.read ? "in the book" : "");
      row.state.className = bad ? "state bad" : "state";
    }
    // Cells show what is being typed or waits; all else is as in the book.
    function fill(row, all) {
      var shown = row.book.slice();
      waits(row, all).filter(fits).forEach(function (item) {
        (item.entry.cells || []).forEach(function (value, at) { if (value && at < shown.length) { shown[at] = value === "-" ? "" : value; } });
      });
      row.cells.forEach(function (cell, at) { if (!row.touched[at]) { cell.querySelector("b").textContent = shown[at]; } });
      mark(row, all);
    }
    // The rows as podbook has them now: what was taken back, or entered elsewhere, is in no answer to an entry of this page.
    var news = 0;
    function renewRows() {
      var asked = news;
      var none = function () { say("The sheet may show what is no longer in the book. Load it anew.", true); show(); };
      asItIs().then(function (page) {
        var fresh = page.getElementById("sitting");
        if (!fresh || fresh.dataset.on !== sheet.dataset.on) { none(); return; }
        if (news !== asked) { renewRows(); return; }
        var all = waiting();
        rows.forEach(function (row) {
          var of = Array.prototype.find.call(fresh.querySelectorAll(".row"), function (of) { return of.dataset.plant === row.code; });
          row.read = Boolean(of) && of.dataset.read !== undefined;
          row.left = row.dead ? (of ? "a piece found dead: in the book" : "found dead: in the book") : of ? "" : "no longer here";
          if (of) {
            row.book = Array.prototype.map.call(of.querySelectorAll(".cell b"), function (value) { return value.textContent; });
          }
          fill(row, all);
        });
      }).catch(none);
    }
    function close(row) {
      if (row.entry) { row.entry.remove(); row.entry = null; row.line = null; }
      row.cells.forEach(function (cell) { cell.setAttribute("aria-expanded", "false"); });
      row.of.classList.remove("open");
      row.at = -1;
    }
    var disarm = null;
    function open(row, at) {
      rows.forEach(function (other) {
        if (other !== row && other.at >= 0) { done(other); }
      });
      var typing = row.line && row.line.value;
      close(row);
      row.at = at;
      row.of.classList.add("open");
      row.cells[at].setAttribute("aria-expanded", "true");
      var column = columns[at], keys = make("div", "", { "class": "keys" });
      var entry = make("div", "", { "class": "entry", role: "group", "aria-label": column.heading + " of " + row.code });
      // The cell may be out of sight where letters are large.
      var shown = row.cells[at].querySelector("b"), also = make("p", "", { "class": "shown" });
      function showToo() { also.textContent = column.heading + ": " + (shown.textContent || "–"); }
      showToo();
      function set(words) {
        if (!row.touched[at]) { row.seen[at] = shown.textContent; }
        shown.textContent = words;
        row.changed = row.touched[at] = true;
        showToo();
        if (column.kind !== "words") { speak(column.heading + ": " + (words || "empty")); }
        mark(row);
      }
      if (column.kind === "choice") {
        keys.className = "keys choices";
        column.choices.forEach(function (choice) {
          put(keys, put(button(choice.value, function () { set(choice.value); next(row); },
            { "data-key": choice.value, "aria-pressed": String(choice.value === shown.textContent) }),
            choice.words ? make("small", choice.words) : null));
        });
      } else if (column.kind === "number") {
        var fresh = true;
        keys.className = "keys digits";
        ["7", "8", "9", "⌫", "4", "5", "6", ".", "1", "2", "3", "0"].forEach(function (key) {
          put(keys, button(key, function () {
            if (key === "⌫") { set(shown.textContent.slice(0, -1)); } else { set((fresh ? "" : shown.textContent) + key); }
            fresh = false;
          }, key === "⌫" ? { "data-key": "back", "aria-label": "Delete" } : { "data-key": key }));
        });
      } else {
        var input = make("input", "", { value: shown.textContent, "aria-label": column.heading, autocomplete: "off" });
        input.addEventListener("input", function () { set(input.value); });
        put(keys, input);
        keys.className = "";
      }
      var go = make("div", "", { "class": "go" });
      put(go, button("Empty", function () { set(""); next(row); }, { "data-key": "empty" }),
        button(at + 1 < columns.length ? "Next" : "Done", function () { next(row); }, { "data-key": "next", "class": "main-act" }),
        button("Row done", function () { done(row); onward(row); }, { "data-key": "done" }));
      var line = make("input", "", { "class": "line", placeholder: "or the whole row: 14.5; red; ! remark", "aria-label": "Whole row of " + row.code,
        autocomplete: "off", autocapitalize: "off", enterkeyhint: "send" });
      // A line that was given back stands there, to be put right.
      row.given = stuck(row, "line").pop() || null;
      line.value = typing || (row.given ? row.given.entry.line : "");
      line.addEventListener("keydown", function (event) { if (event.key === "Enter" && line.value.trim()) { event.preventDefault(); whole(row, line.value); onward(row); } });
      // A death needs two taps, and nothing else and no long while between them.
      var dead = button("Found dead", function () { if (dead.dataset.sure) { whole(row, "dead"); onward(row); } else { arm(true); } }, { "data-key": "dead" });
      function arm(isSure) {
        clearTimeout(disarm);
        dead.textContent = isSure ? "Tap again: dead" : "Found dead";
        if (isSure) { dead.dataset.sure = "1"; disarm = setTimeout(arm, 5000); speak("Tap again to record the death of " + row.code); } else { delete dead.dataset.sure; }
      }
      entry.addEventListener("click", function (event) { if (event.target !== dead) { arm(false); } });
      entry.addEventListener("input", function () { arm(false); });
      var photo = make("input", "", { type: "file", accept: "image/*", capture: "environment", "aria-label": "Photo of " + row.code });
      photo.addEventListener("change", photoOf(row.code, function () { return sheet.dataset.on; }, {}, function () {}));
      row.line = line;
      // A keyboard that is plugged in types digits and choices.
      entry.addEventListener("keydown", function (event) {
        var typed = { Backspace: "back", ",": "." }[event.key] || event.key;
        var key = Array.prototype.find.call(keys.children, function (of) { return of.dataset.key === typed; });
        if (!key || event.target.tagName === "INPUT" || event.repeat || event.ctrlKey || event.metaKey || event.altKey) { return; }
        event.preventDefault();
        key.click();
      });
      row.entry = put(entry, also, keys, go, line, put(make("div", "", { "class": "end" }), dead, photo));
      row.of.appendChild(entry);
      (keys.querySelector("[aria-pressed=true]") || keys.querySelector("button,input")).focus({ preventScroll: true });
      // The keys are seen, from the top where letters are so large that they do not fit.
      go.scrollIntoView({ block: "nearest" });
      also.scrollIntoView({ block: "nearest" });
    }
    openRow = function (item) {
      var row = rows.find(function (of) { return isOf(item, of) && fits(item) && !isDeath(item.entry); });
      return row && function () {
        open(row, Math.max(0, (item.entry.cells || []).findIndex(Boolean)));
        row.of.scrollIntoView();
        if (item.entry.line) { row.line.focus(); }
      };
    };
    function next(row) {
      if (row.at + 1 < columns.length) { open(row, row.at + 1); } else { done(row); onward(row); }
    }
    // The focus goes on to the next row.
    function onward(row) { (rows[rows.indexOf(row) + 1] || row).cells[0].focus(); }
    function entryOf(row) {
      var entry = { kind: "measure", plant: row.code, on: sheet.dataset.on, traits: columns.map(function (of) { return of.asked; }) };
      if (sheet.dataset.place) { entry.place = sheet.dataset.place; }
      if (hasRow(row)) { entry.again = true; }
      return entry;
    }
    // What is typed into the line of an open row, and was not given back.
    function lineOf(row) {
      var line = row.line ? row.line.value.trim() : "";
      return row.given && row.given.entry.line === line ? "" : line;
    }
    function done(row) {
      var line = lineOf(row);
      close(row);
      if (row.changed) { enterCells(row); }
      if (line) { whole(row, line); }
    }
    // Whether all that was typed into the cells is kept.
    function enterCells(row) {
      var entry = entryOf(row);
      entry.cells = sent(row, entry.again);
      entry.seen = row.cells.map(function (_, at) { return row.seen[at] || ""; });
      // Cells that were given back stand in the row still: they go along, but for what was typed over them.
      var before = stuck(row, "cells");
      before.slice().reverse().forEach(function (item) {
        item.entry.cells.forEach(function (value, at) {
          if (!value) { return; }
          if (!row.touched[at]) { entry.cells[at] = entry.cells[at] || value; }
          entry.seen[at] = (item.entry.seen || [])[at] || "";
        });
      });
      if (entry.cells.some(Boolean) && !enter(entry, "Row of " + row.code + ": " + values(row).join("; "), null, null, before)) { return false; }
      row.changed = false;
      row.touched = [];
      row.seen = [];
      fill(row);
      return true;
    }
    // A line, or a death, takes nothing of what the cells have: they go before it.
    function whole(row, line) {
      var given = stuck(row, "line").filter(function (item) { return row.given && item.entry.id === row.given.entry.id && !isDeath({ line: line }); });
      close(row);
      if (row.changed && !enterCells(row)) { return; }
      var entry = entryOf(row);
      entry.line = line;
      entry.seen = values(row);
      enter(entry, "Row of " + row.code + ": " + line, null, null, given);
    }
    listeners.push(function (item, state, answer) {
      var entry = item.entry, row = rows.find(function (of) { return isOf(item, of); });
      if (state === "recorded") { news += 1; }
      if (state === "recorded" && entry.kind === "undo") {
        rows.forEach(function (of) { if (of.death === entry.change) { of.dead = false; } });
        renewRows();
        return;
      }
      if (!row) { return; }
      if (state === "refused" && answer.there) { renewRows(); }
      if (state === "recorded") {
        row.read = true;
        if (isDeath(entry)) { row.dead = true; row.death = answer.report.change; }
        (entry.cells || []).forEach(function (value, at) { if (value) { row.book[at] = value === "-" ? "" : value; } });
        if (entry.line !== undefined) { renewRows(); }
      }
      fill(row);
    });
    // After a reload: what waits is shown in its row.
    var left = waiting();
    rows.forEach(function (row) { fill(row, left); });
    window.addEventListener("beforeunload", function (event) {
      if (rows.some(function (row) { return row.changed || lineOf(row); })) { event.preventDefault(); }
    });
  }

  // ---- a plant by the photo of its tag -----------------------------------------------------------------------------
  function tagged(input) {
    var says = document.getElementById("tag-says");
    input.addEventListener("change", function () {
      var file = input.files[0];
      input.value = "";
      if (!file) { return; }
      says.textContent = "Reading the tag …";
      ask("tag", file).then(function (answer) {
        if (answer.path) { location.href = root + answer.path; } else { says.textContent = answer.words; }
      }, function (why) { says.textContent = why.words || "podbook does not answer. Try again when the network is back."; });
    });
  }

  // A form that was begun is not left without a question.
  window.addEventListener("beforeunload", function (event) {
    if (document.querySelector("#form [data-begun]")) { event.preventDefault(); }
  });
  offered(document);
  if (plant) { events(document.getElementById("main")); }
  var trays = document.getElementById("trays");
  if (trays) {
    var formOfTray = make("div", "", { id: "form" });
    EVENTS.filter(isOfTrays).forEach(function (of) { offerForm(of, trays, formOfTray); });
    trays.parentNode.appendChild(formOfTray);
  }
  var sheet = document.getElementById("sitting"), tag = document.getElementById("tag");
  if (sheet) { sitting(sheet); }
  if (tag) { tagged(tag); }
  document.addEventListener("click", function (event) {
    var of = event.target.closest("button.undo");
    if (!of) { return; }
    of.disabled = true;
    land(of.closest("section").querySelector("h2"));
    enter({ kind: "undo", change: Number(of.dataset.change) }, of.textContent);
  });
  // What was not undone can be tried again.
  listeners.push(function (item, state) {
    var of = item.entry.kind === "undo" && document.querySelector("button.undo[data-change='" + item.entry.change + "']");
    if (of && (state === "refused" || state === "dropped")) { of.disabled = false; }
  });
  window.addEventListener("online", function () { pause = 1000; send(); });
  window.addEventListener("storage", show);
  show();
  send();
})();
