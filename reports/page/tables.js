// The other sheets: tables of the result as they are, with what each column means.
const Tables = (() => {
  const { element } = Legend;

  const asWords = { lane_class: Words.lanes, kind: Words.kinds, binding_limit: Words.limits };
  const yesNo = new Set(["unlimited", "needs_engine", "officers_place", "single_file", "staffed", "given", "tanker_may_use", "planned"]);

  function cell(column, row) {
    const text = column.shown(row);
    if (yesNo.has(column.name)) return text === "" ? "" : text === "1" ? "yes" : "no";
    if (asWords[column.name] && asWords[column.name][text]) return asWords[column.name][text];
    return column.form === Packed.form.numbers && text !== "" ? Number(text).toLocaleString("en-US", { maximumFractionDigits: 3 }) : text;
  }

  function headOf(columns) {
    const row = element("tr", "");
    for (const column of columns) {
      const head = element("th", column.form === Packed.form.numbers && !yesNo.has(column.name) ? "number" : "", Words.readable(column.name));
      head.scope = "col";
      head.title = column.description;
      row.append(head);
    }
    return element("thead", "", row);
  }

  function rowOf(columns, row) {
    return element("tr", "", ...columns.map((column) => {
      const number = column.form === Packed.form.numbers && !yesNo.has(column.name);
      const text = cell(column, row);
      return element("td", number ? "number" : text.length > 300 ? "long" : "", number ? text : element("bdi", "", text));
    }));
  }

  function meanings(columns) {
    const list = element("dl", "");
    for (const column of columns) list.append(element("dt", "", Words.readable(column.name)), element("dd", "", column.description));
    return element("details", "", element("summary", "", "What the columns mean"), list);
  }

  // A table of the result under a heading; `only` rows where it says yes; nothing when empty.
  function shown(name, { keep = () => true, order = null, all = null, without = [] } = {}) {
    const table = Packed.table(name);
    const columns = table.columns.filter((column) => column.form !== Packed.form.shapes && !without.includes(column.name));
    const rows = [...Array(table.rows).keys()].filter(keep);
    if (order) rows.sort(order);
    const section = element("section", "listing", element("h3", "", table.title), element("p", "small", table.description));
    if (rows.length === 0) {
      section.append(element("p", "", "None."));
      return section;
    }
    if (all !== null && all > rows.length) section.append(element("p", "", `The first ${Words.whole(rows.length)} of ${Words.whole(all)}; all are in tables/${name}.csv.`));
    const body = element("tbody", "", ...rows.map((row) => rowOf(columns, row)));
    const wide = element("div", "wide", element("table", "", headOf(columns), body));
    wide.tabIndex = 0;
    wide.setAttribute("role", "region");
    wide.setAttribute("aria-label", table.title);
    section.append(wide, meanings(columns));
    return section;
  }

  const byNumber = (name, column) => (a, b) => {
    const numbers = Packed.table(name).of[column].numbers();
    return numbers[b] - numbers[a] || a - b;
  };

  const sheets = {
    places: () => {
      const served = Packed.table("dump_sites").of.parcels_served?.numbers() || [];
      const officers = Packed.table("dump_sites").of.officers_place?.numbers() || [];
      return [
        shown("fill_sites", { order: byNumber("fill_sites", "parcels_served") }),
        shown("dump_sites", { keep: (row) => served[row] > 0 || officers[row] === 1, order: byNumber("dump_sites", "parcels_served") }),
        shown("stations"),
        shown("fleet"),
        ...(Packed.table("target_supply").rows ? [shown("target_supply")] : []),
        shown("resting_water"),
      ];
    },
    data: () => [
      shown("input_records"),
      shown("problem_kinds"),
      shown("worklist"),
      shown("data_problems", { all: Number(Words.fact("data_problems")), without: ["what", "mend"] }),
    ],
    assumptions: () => [shown("assumptions"), shown("by_state"), shown("run_record")],
  };

  const filled = new Set();
  function fill(sheet) {
    if (!sheets[sheet] || filled.has(sheet)) return;
    filled.add(sheet);
    const host = { places: "places-tables", data: "data-tables", assumptions: "assumption-tables" }[sheet];
    document.getElementById(host).replaceChildren(...sheets[sheet]());
  }
  return { fill, shown, names: Object.keys(sheets) };
})();
