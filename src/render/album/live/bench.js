// Records from a page. What is entered waits in this device until podbook answers that it is in the book: an entry bears an
// id, so that sending it again does no harm. Plain HTTP gives no service worker; the open page is what works without network.
"use strict";
(function () {
  function meta(name) {
    var of = document.querySelector('meta[name="podbook-' + name + '"]');
    return of ? of.content : "";
  }
  var token = meta("token"), root = meta("root"), today = meta("day"), plant = meta("plant");
  var KEY = "podbook-waits";

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
  function keep(item) { localStorage.setItem(KEY + ":" + item.entry.id, JSON.stringify(item)); }
  function drop(id) { localStorage.removeItem(KEY + ":" + id); }

  var listeners = [];
  function tell(item, state, answer) {
    listeners.forEach(function (listen) { listen(item, state, answer); });
  }

  // An entry is kept before anything is sent.
  function enter(entry, label, picture) {
    entry.id = newId();
    var last = waiting().pop();
    var item = { entry: entry, label: label, at: Math.max(Date.now(), last ? last.at + 1 : 0), picture: picture || null };
    try {
      keep(item);
    } catch (_) {
      say("This device has no room left for what waits. It was not kept: connect, then enter it again.", true);
      return null;
    }
    tell(item, "waits");
    show();
    send();
    return item;
  }

  var sending = false, offline = false, pause = 1000, timer = null;
  function later() {
    clearTimeout(timer);
    timer = setTimeout(send, pause);
    pause = Math.min(pause * 2, 15000);
  }
  function send() {
    if (sending) { return; }
    var open = waiting().filter(function (item) { return !item.refused && !item.sure; });
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
      sending = false; offline = false; pause = 1000;
      var again = false;
      open.forEach(function (item, at) { again = settle(item, answers[at]) || again; });
      show();
      if (again) { later(); } else { send(); }
    }, function (why) {
      sending = false;
      offline = !why.status;
      say(why.status ? why.words : "", Boolean(why.status));
      show();
      later();
    });
  }
  // Whether the entry is to be sent again.
  function settle(item, answer) {
    if (answer.state === "recorded") {
      drop(item.entry.id);
      say(answer.report.recorded + (answer.report.write_down || []).map(function (of) {
        return ". Write on the " + of.on + ": " + of.code;
      }).join("") + (answer.report.warnings || []).map(function (of) { return ". Look: " + of; }).join(""), false, answer.report.change);
    } else if (answer.state === "later") {
      say(answer.words, true);
      return true;
    } else {
      item[answer.state === "sure" ? "sure" : "refused"] = answer.words;
      keep(item);
    }
    tell(item, answer.state, answer);
    return false;
  }
  function ask(path, body) {
    return fetch(root + path, {
      method: "POST", body: body, headers: { "X-Podbook-Token": token }, credentials: "same-origin", cache: "no-store"
    }).then(function (answer) {
      if (answer.ok) { return answer.json(); }
      return answer.text().then(function (text) {
        var page = new DOMParser().parseFromString(text, "text/html");
        throw { status: answer.status, words: (page.querySelector("main p") || page.body).textContent };
      });
    });
  }

  // ---- the line at the foot ---------------------------------------------------------------------------------------
  var bar = make("div", "", { id: "waits", role: "region", "aria-label": "What waits", hidden: "" });
  document.body.appendChild(bar);
  var said = { words: "", bad: false, change: null };
  function say(words, bad, change) { said = { words: words, bad: bad, change: change || null }; }
  function show() {
    var items = waiting(), inside = make("div");
    var bad = items.filter(function (item) { return item.refused || item.sure; });
    var count = items.length - bad.length;
    bar.replaceChildren(inside);
    bar.hidden = !items.length && !said.words;
    var state = count ? count + (count === 1 ? " entry is" : " entries are") + " not in the book yet" : "";
    if (count && offline) { state += ": podbook does not answer. They are kept on this device and sent when it does."; }
    put(inside, make("p", state, { id: "state", role: "status" }));
    if (said.words) {
      put(inside, make("p", said.words, { id: "said", role: "status", "class": said.bad ? "bad" : "" }));
      if (said.change) {
        var number = said.change;
        put(inside, put(make("div", "", { "class": "do" }), button("Undo", function () {
          enter({ kind: "undo", change: number }, "Undo change " + number);
        }, { id: "undo" }), button("Hide", function () { say("", false); show(); })));
      }
    }
    if (!bad.length) { return; }
    var list = make("ul");
    bad.forEach(function (item) { put(list, trouble(item)); });
    put(inside, list);
  }
  function trouble(item) {
    var line = make("li"), acts = make("div", "", { "class": "do" });
    put(line, make("p", item.label), make("pre", item.refused || item.sure, { "class": "bad" }), acts);
    if (item.sure) {
      put(acts, button("Yes, record it", function () {
        item.entry.sure = true;
        again(item);
      }, { "class": "main-act" }));
    } else {
      put(acts, button("Try again", function () { again(item); }));
    }
    put(acts, button("Give it up", function () { drop(item.entry.id); tell(item, "dropped"); show(); }));
    return line;
  }
  function again(item) {
    delete item.sure;
    delete item.refused;
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
  // `said` are the fields that stand beside the photo: what it shows, and its light.
  function photoOf(code, on, said) {
    return function (event) {
      var file = event.target.files[0];
      event.target.value = "";
      if (file) {
        smaller(file, function (picture) {
          var entry = { kind: "photo", plant: code, on: on };
          Object.keys(said).forEach(function (name) { if (said[name].value.trim()) { entry[name] = said[name].value.trim(); } });
          enter(entry, "Photo of " + code, picture);
        });
      }
    };
  }

  // ---- events on the page of a plant ------------------------------------------------------------------------------
  // A field: name, words, and what it may hold.
  var EVENTS = [
    ["flower", "Flowered", [["sex", "Sex the open flowers show", ["", "female", "male"]], ["note", "Remark"]]],
    ["pollinate", "Pollinated", [["with", "Pollen: envelope or plant"], ["zone", "Zone, such as red; empty for the next letter"],
      ["flowers", "Flowers treated", "number"], ["controls", "Flowers left as controls", "number"]]],
    ["took", "Took", [["zone", "Zone, such as X24-01.red"], ["pods", "Pods that set; none is 0", "number"],
      ["controls", "Controls: pods/flowers, such as 0/5"]]],
    ["gone", "Gone", [["fate", "What became of it", ["died", "culled", "sold", "given", "lost"]], ["why", "Why"]]],
    ["pot", "Potted", [["width", "Inside width of the pot, such as 9cm"], ["place", "Place, if it changed"]]],
    ["muddle", "Muddled", [["others", "Mixed up with, such as X22-02-4"], ["why", "How it happened"]]]
  ];
  function events(main) {
    var section = make("section", "", { "aria-labelledby": "happened" });
    var buttons = make("div", "", { "class": "events" }), place = make("div");
    put(section, make("h2", "Record on " + plant, { id: "happened" }), buttons, place);
    EVENTS.forEach(function (of) {
      put(buttons, button(of[1], function () { place.replaceChildren(form(of, place)); place.querySelector("input,select").focus(); }, { "data-kind": of[0] }));
    });
    var file = make("input", "", { type: "file", accept: "image/*", capture: "environment", id: "photo" });
    var said = { note: make("input", "", { id: "shows", autocomplete: "off" }), light: make("input", "", { id: "light", autocomplete: "off" }) };
    // The light is that of the photo before: most are taken in one place.
    said.light.value = localStorage.getItem(KEY + "-light") || "";
    said.light.addEventListener("input", function () { localStorage.setItem(KEY + "-light", said.light.value); });
    file.addEventListener("change", photoOf(plant, today, said));
    var words = make("details");
    put(words, make("summary", "What the next photo shows, and its light"), put(make("div", "", { "class": "ask" }),
      make("label", "Shows, such as newest pitcher", { "for": "shows" }), said.note,
      make("label", "Light, such as LED or daylight", { "for": "light" }), said.light));
    put(section, words, make("label", "Photo", { "class": "touch", "for": "photo" }), file);
    var top = main.querySelector(".top");
    main.insertBefore(section, top ? top.nextSibling : main.firstChild);
  }
  function form(of, place) {
    var ask = make("div", "", { "class": "ask" }), inputs = {};
    of[2].concat([["on", "Day"]]).forEach(function (field) {
      var id = "f-" + field[0], input;
      if (Array.isArray(field[2])) {
        input = make("select", "", { id: id });
        field[2].forEach(function (word) { put(input, make("option", word || "not seen", { value: word })); });
      } else {
        input = make("input", "", { id: id, autocomplete: "off", autocapitalize: "off" });
        if (field[2] === "number") { input.inputMode = "numeric"; }
        if (field[0] === "on") { input.type = "date"; input.value = today; input.max = today; }
      }
      inputs[field[0]] = input;
      put(ask, make("label", field[1], { "for": id }), input);
    });
    var go = make("div", "", { "class": "go" });
    put(ask, put(go, button("Cancel", function () { place.replaceChildren(); }), button("Record", function () {
      var entry = { kind: of[0] };
      if (of[0] !== "took") { entry.plant = plant; }
      Object.keys(inputs).forEach(function (name) { if (inputs[name].value) { entry[name] = inputs[name].value; } });
      if (enter(entry, of[1] + ": " + plant)) { place.replaceChildren(); }
    }, { "class": "main-act", id: "enter" })));
    return ask;
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
        state: of.querySelector(".state"), entry: null, at: -1, changed: false
      };
      cells.forEach(function (cell, at) { cell.addEventListener("click", function () { open(row, at); }); });
      return row;
    }
    function values(row) { return row.cells.map(function (cell) { return cell.querySelector("b").textContent; }); }
    function mark(row, words, bad) {
      row.state.textContent = words;
      row.state.className = bad ? "state bad" : "state";
    }
    function close(row) {
      if (row.entry) { row.entry.remove(); row.entry = null; }
      row.cells.forEach(function (cell) { cell.removeAttribute("aria-expanded"); });
      row.of.classList.remove("open");
      row.at = -1;
    }
    function open(row, at) {
      rows.forEach(function (other) {
        if (other !== row && other.at >= 0) { done(other); }
      });
      close(row);
      row.at = at;
      row.of.classList.add("open");
      row.cells[at].setAttribute("aria-expanded", "true");
      var column = columns[at], entry = make("div", "", { "class": "entry" }), keys = make("div", "", { "class": "keys" });
      var shown = row.cells[at].querySelector("b");
      function set(words) { shown.textContent = words; row.changed = true; mark(row, "not in the book yet"); }
      if (column.kind === "choice") {
        keys.className = "keys choices";
        column.choices.forEach(function (choice) {
          put(keys, put(button(choice.value, function () { set(choice.value); next(row); }, { "data-key": choice.value }),
            choice.words ? make("small", choice.words) : null));
        });
      } else if (column.kind === "number") {
        var fresh = true;
        ["7", "8", "9", "⌫", "4", "5", "6", ".", "1", "2", "3", "0"].forEach(function (key) {
          put(keys, button(key, function () {
            if (key === "⌫") { set(shown.textContent.slice(0, -1)); } else { set((fresh ? "" : shown.textContent) + key); }
            fresh = false;
          }, { "data-key": key === "⌫" ? "back" : key }));
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
        button("Row done", function () { done(row); }, { "data-key": "done" }));
      var line = make("input", "", { "class": "line", placeholder: "or the whole row: 14.5; red; ! remark", "aria-label": "Whole row of " + row.code,
        autocomplete: "off", autocapitalize: "off", enterkeyhint: "send" });
      line.addEventListener("keydown", function (event) { if (event.key === "Enter" && line.value.trim()) { whole(row, line.value); } });
      var dead = button("Found dead", function () {
        if (dead.dataset.sure) { whole(row, "dead"); } else { dead.dataset.sure = "1"; dead.textContent = "Tap again: dead"; }
      }, { "data-key": "dead" });
      var photo = make("input", "", { type: "file", accept: "image/*", capture: "environment", "aria-label": "Photo of " + row.code });
      photo.addEventListener("change", photoOf(row.code, sheet.dataset.on, {}));
      row.entry = put(entry, keys, go, line, dead, photo);
      row.of.appendChild(entry);
    }
    function next(row) {
      if (row.at + 1 < columns.length) { open(row, row.at + 1); } else { done(row); }
    }
    function entryOf(row) {
      var entry = { kind: "measure", plant: row.code, on: sheet.dataset.on, traits: columns.map(function (of) { return of.asked; }) };
      if (sheet.dataset.place) { entry.place = sheet.dataset.place; }
      if (row.read) { entry.again = true; }
      return entry;
    }
    // A cell that was emptied says so: an empty one leaves what stands in the book.
    function done(row) {
      close(row);
      if (!row.changed) { return; }
      var entry = entryOf(row);
      entry.cells = values(row).map(function (value) { return value || (row.read ? "-" : ""); });
      if (!row.read && !entry.cells.some(Boolean)) { row.changed = false; mark(row, ""); return; }
      if (enter(entry, "Row of " + row.code + ": " + values(row).join("; "))) { row.changed = false; row.read = true; }
    }
    function whole(row, line) {
      close(row);
      var entry = entryOf(row);
      entry.line = line;
      row.changed = false;
      if (enter(entry, "Row of " + row.code + ": " + line)) { row.read = true; }
    }
    listeners.push(function (item, state, answer) {
      var entry = item.entry, row = rows.find(function (of) { return entry.kind === "measure" && of.code === entry.plant; });
      if (!row || entry.on !== sheet.dataset.on) { return; }
      if (state === "recorded") { mark(row, "in the book"); row.read = true; }
      else if (state === "waits") { mark(row, "not in the book yet"); }
      else if (state === "dropped") { mark(row, ""); row.read = row.of.dataset.read !== undefined; }
      else { mark(row, "not in the book: see below", true); if (!entry.again) { row.read = false; } }
    });
    // After a reload: what waits is shown in its row.
    waiting().forEach(function (item) {
      var row = rows.find(function (of) { return item.entry.kind === "measure" && of.code === item.entry.plant; });
      if (!row || item.entry.on !== sheet.dataset.on) { return; }
      if (item.entry.cells && item.entry.cells.length === row.cells.length) {
        item.entry.cells.forEach(function (value, at) { row.cells[at].querySelector("b").textContent = value === "-" ? "" : value; });
      }
      mark(row, item.refused || item.sure ? "not in the book: see below" : "not in the book yet", item.refused || item.sure);
    });
    window.addEventListener("beforeunload", function (event) {
      if (rows.some(function (row) { return row.changed; })) { event.preventDefault(); }
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

  if (plant) { events(document.getElementById("main")); }
  var sheet = document.getElementById("sitting"), tag = document.getElementById("tag");
  if (sheet) { sitting(sheet); }
  if (tag) { tagged(tag); }
  Array.prototype.forEach.call(document.querySelectorAll("button.undo"), function (of) {
    of.addEventListener("click", function () {
      of.disabled = true;
      enter({ kind: "undo", change: Number(of.dataset.change) }, of.textContent);
    });
  });
  window.addEventListener("online", function () { pause = 1000; send(); });
  window.addEventListener("storage", show);
  show();
  send();
})();
