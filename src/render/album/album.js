// Search and filters on the page of all plants, and the order of seedlings on that of a cross. Pages say the same without it.
"use strict";
(function () {
  function byId(id) { return document.getElementById(id); }

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
          read: row.cells[3].textContent
        };
      });
      return { body: body, rows: rows };
    });
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
        words: words(value("q").toLowerCase()), alive: value("alive"), species: value("species"), cross: value("cross"),
        sex: value("sex"), place: value("place"), unread: value("unread"),
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
    filters.addEventListener("input", show);
    filters.addEventListener("change", show);
    filters.addEventListener("submit", function (event) { event.preventDefault(); });
    filters.addEventListener("reset", function () { setTimeout(show, 0); });
    filters.hidden = false;
    // A page that is gone back to keeps what was typed.
    show();
  }

  var order = byId("order");
  if (order) {
    var cards = Array.prototype.slice.call(byId("cards").children);
    order.addEventListener("change", function () {
      var at = order.value;
      var sorted = cards.slice();
      if (at !== "") {
        var read = function (card) {
          var text = card.dataset.v.split("|")[Number(at)];
          return text === "" ? -Infinity : Number(text);
        };
        // Stable: equal ones stay by number; the largest first, those not read last.
        sorted.sort(function (a, b) { var x = read(a), y = read(b); return x === y ? 0 : y > x ? 1 : -1; });
      }
      sorted.forEach(function (card) { byId("cards").appendChild(card); });
    });
    order.form.addEventListener("submit", function (event) { event.preventDefault(); });
    order.form.hidden = false;
  }

  function words(text) { return text.split(/\s+/).filter(function (word) { return word !== ""; }); }
})();
