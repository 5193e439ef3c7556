// Search and filters on the page of all plants, and the order of seedlings on that of a cross. Pages say the same without it.
// What was chosen stands behind the # of the address, so that going back, a reload and a bookmark keep it.
"use strict";
(function () {
  function byId(id) { return document.getElementById(id); }

  // Fields of a form and what stands in them; one that is not set has "".
  function fieldsOf(form) {
    return Array.prototype.filter.call(form.elements, function (field) { return field.id && field.type !== "reset"; });
  }
  function setIn(field) { return field.type === "checkbox" ? (field.checked ? "1" : "") : field.value; }
  function keep(form) {
    var parts = fieldsOf(form).filter(setIn).map(function (field) { return field.id + "=" + encodeURIComponent(setIn(field)); });
    var place = location.pathname + location.search + (parts.length ? "#" + parts.join("&") : "");
    // Some browsers refuse too many changes in a row: the page works without.
    try { history.replaceState(null, "", place); } catch (_) { }
  }
  function restore(form) {
    if (location.hash.indexOf("=") < 0) { return; }
    var kept = new URLSearchParams(location.hash.slice(1));
    fieldsOf(form).forEach(function (field) {
      var text = kept.get(field.id) || "";
      if (field.type === "checkbox") { field.checked = text === "1"; } else { field.value = text; }
      // A choice that is no longer there.
      if (field.value === "" && field.options) { field.selectedIndex = 0; }
    });
    var folded = form.querySelector("details");
    if (folded) { folded.open = fieldsOf(folded.parentNode).some(function (field) { return folded.contains(field) && setIn(field); }); }
  }

  // What was chosen stays in the address.
  document.querySelector("a.skip").addEventListener("click", function (event) {
    var main = byId("main");
    event.preventDefault();
    main.tabIndex = -1;
    main.focus();
  });

  var filters = byId("filters");
  if (filters) {
    var groups = Array.prototype.map.call(byId("plants").tBodies, function (body) {
      var head = body.rows[0];
      var rows = Array.prototype.slice.call(body.rows, 1).map(function (row) {
        return {
          row: row,
          text: (head.textContent + " " + row.textContent).toLowerCase(),
          marks: row.dataset.m,
          sex: row.dataset.x || "not seen",
          species: words(row.dataset.s === undefined ? body.dataset.s : row.dataset.s),
          places: words(row.dataset.p || ""),
          cross: body.dataset.c || "",
          read: row.cells[3].dataset.d || row.cells[3].textContent
        };
      });
      return { body: body, rows: rows };
    });
    // Rows have the number of a species or place: the order of the choices. The address has its name, which stays.
    var number = function (id) { var field = byId(id); return field && field.selectedIndex > 0 ? String(field.selectedIndex - 1) : ""; };
    var value = function (id) { var field = byId(id); return field ? field.value : ""; };
    var fits = function (of, asked) {
      return asked.words.every(function (word) { return of.text.indexOf(word) >= 0; })
        && (!asked.alive || (of.marks.indexOf("h") >= 0) === (asked.alive === "h"))
        && (!asked.species || of.species.indexOf(asked.species) >= 0)
        && (!asked.cross || of.cross === asked.cross)
        && (!asked.sex || (of.sex === asked.sex || of.sex === asked.sex.charAt(0)))
        && (!asked.place || of.places.indexOf(asked.place) >= 0)
        && (!asked.unread || of.read < asked.unread)
        && (!asked.flowering || of.marks.indexOf("f") >= 0)
        && (!asked.kept || of.marks.indexOf("k") >= 0);
    };
    var show = function () {
      var asked = {
        words: words(value("q").toLowerCase()), alive: value("alive"), species: number("species"), cross: value("cross"),
        sex: value("sex"), place: number("place"), unread: value("unread"),
        flowering: byId("flowering").checked, kept: byId("kept").checked
      };
      var shown = 0;
      var all = 0;
      groups.forEach(function (group) {
        var here = 0;
        group.rows.forEach(function (of) {
          var fit = fits(of, asked);
          of.row.hidden = !fit;
          here += fit ? 1 : 0;
        });
        group.body.hidden = here === 0;
        shown += here;
        all += group.rows.length;
      });
      byId("found").textContent = shown === all ? "All " + all + " plants" : shown + " of " + all + " plants";
      byId("found").hidden = false;
    };
    var changed = function () { show(); keep(filters); };
    filters.addEventListener("input", changed);
    filters.addEventListener("change", changed);
    filters.addEventListener("submit", function (event) { event.preventDefault(); });
    filters.addEventListener("reset", function () { setTimeout(changed, 0); });
    filters.hidden = false;
    // A page that is gone back to keeps what was typed.
    restore(filters);
    show();
    window.addEventListener("hashchange", function () { restore(filters); show(); });
  }

  var order = byId("order");
  if (order) {
    var cards = Array.prototype.slice.call(byId("cards").children);
    var sort = function () {
      var at = order.selectedIndex - 1;
      var sorted = cards.slice();
      if (at >= 0) {
        var read = function (card) {
          var text = card.dataset.v.split("|")[at];
          return text === "" ? -Infinity : Number(text);
        };
        // Stable: equal ones stay by number; the largest first, those not read last.
        sorted.sort(function (a, b) { var x = read(a), y = read(b); return x === y ? 0 : y > x ? 1 : -1; });
      }
      sorted.forEach(function (card) { byId("cards").appendChild(card); });
    };
    order.addEventListener("change", function () { sort(); keep(order.form); });
    order.form.addEventListener("submit", function (event) { event.preventDefault(); });
    order.form.hidden = false;
    restore(order.form);
    sort();
  }

  function words(text) { return text.split(/\s+/).filter(function (word) { return word !== ""; }); }
})();
