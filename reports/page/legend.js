// The question that the map answers, its key, and which parcels are shown.
const Legend = (() => {
  const questions = document.getElementById("questions");
  const key = document.getElementById("key");
  const filters = document.getElementById("filters");
  const marks = document.getElementById("marks");

  let question = Questions.list[1];
  const shown = Words.states.map(() => true);

  function element(name, className, ...children) {
    const made = document.createElement(name);
    if (className) made.className = className;
    made.append(...children);
    return made;
  }

  const svgName = "http://www.w3.org/2000/svg";
  function svg(name, attributes, ...children) {
    const made = document.createElementNS(svgName, name);
    for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
    made.append(...children);
    return made;
  }

  function choice(type, name, value, checked, ...label) {
    const input = element("input", "");
    Object.assign(input, { type, name, value, checked });
    return [element("label", "choice", input, ...label), input];
  }

  function fillQuestions() {
    for (const item of Questions.list) {
      const [label, input] = choice("radio", "question", item.id, item === question, element("span", "", item.ask));
      input.addEventListener("change", () => {
        question = item;
        update();
      });
      questions.append(label);
    }
  }

  function keyRow(swatch, words, ...numbers) {
    return element("tr", "", element("td", "", swatch), element("th", "", words), ...numbers.map((n) => element("td", "number", n)));
  }

  const faintLast = (list) => [...list.filter(({ faint }) => !faint), ...list.filter(({ faint }) => faint)];

  // Counts are of all parcels, whatever the filter.
  function fillKey() {
    const table = element("table", "");
    const caption = element("caption", "", question.unit);
    const head = element("tr", "", element("td", ""), element("td", ""));
    for (const words of ["parcels", "of improved"]) {
      const cell = element("th", "number", words);
      cell.scope = "col";
      head.append(cell);
    }
    const body = element("tbody", "");
    const classes = Questions.sorted(question).classes.map((one, place) => ({ ...one, count: question.counts[place] }));
    for (const { label, look, faint, count } of faintLast(classes)) {
      if (count === 0) continue;
      const share = faint ? "–" : Words.percent(count, Parcels.allImproved);
      const row = keyRow(Patterns.swatch(look), label, Words.whole(count), share);
      row.querySelector("th").scope = "row";
      body.append(row);
    }
    table.append(caption, element("thead", "", head), body);
    key.replaceChildren(table);
    if (question.id === "shortfall" && Painter.hasZones) {
      key.append(element("p", "small", "Red outlines: neighbours that miss their planned flow, as zones; the sheet Summary lists them."));
    }
    const start = Parcels.startAfterArrival;
    if (question.id === "flow" || question.id === "state" || question.id === "shortfall") {
      key.append(element("p", "small", `Held from ${Words.whole(start)} minutes after the first engine's arrival, for ${durations()}.`));
    }
  }

  function durations() {
    const all = new Set();
    const minutes = Parcels.numbers("duration_min");
    for (let row = 0; row < Parcels.rows; row++) if (!Number.isNaN(minutes[row])) all.add(minutes[row]);
    const ends = [Math.min(...all), Math.max(...all)].map(Words.whole);
    return all.size === 0 ? "the planned time" : all.size === 1 ? `${ends[0]} minutes` : `${ends[0]} to ${ends[1]} minutes, by parcel`;
  }

  function fillFilters() {
    const states = Words.states.map((state, place) => ({ ...state, place, faint: !state.share }));
    for (const { word, label, place } of faintLast(states)) {
      if (Parcels.count[place] === 0) continue;
      const [row, input] = choice(
        "checkbox", "state", word, true,
        Patterns.swatch(Questions.stateClasses[place].look),
        element("span", "", label),
        element("span", "number", Words.whole(Parcels.count[place])),
      );
      input.addEventListener("change", () => {
        shown[place] = input.checked;
        update();
      });
      filters.append(row);
    }
  }

  function fillMarks() {
    const there = new Set(Painter.marks.filter((mark) => mark.least < 1e9).map((mark) => mark.glyph));
    const table = element("table", "", element("caption", "", "Places and roads"));
    for (const [glyph, label] of Glyphs.labels) {
      if (!there.has(glyph)) continue;
      const row = keyRow(Glyphs.picture(glyph), label);
      row.querySelector("th").scope = "row";
      table.append(row);
    }
    for (const [className, label] of [["road-main", "state or paved road"], ["road-other", "other road"], ["road-closed", `no ${Words.tanker} may use it`]]) {
      const row = keyRow(element("span", "road " + className), label);
      row.querySelector("th").scope = "row";
      table.append(row);
    }
    marks.append(table);
  }

  function update() {
    fillKey();
    TheMap.setParcels(question, shown);
  }

  fillQuestions();
  fillFilters();
  fillMarks();
  update();

  // Asks it as if it had been chosen by hand.
  function ask(id) {
    questions.querySelector(`input[value="${id}"]`)?.click();
  }

  return { element, svg, ask };
})();
