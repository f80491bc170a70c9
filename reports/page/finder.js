// Finds parcels by parts of their id or address.
const Finder = (() => {
  const { element } = Legend;
  const field = document.getElementById("find-text");
  const list = document.getElementById("finds");
  const said = document.getElementById("find-said");
  const most = 40;

  // Per parcel its id and address in small letters; made at the first search.
  let texts = null;
  const folded = (text) => text.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase();
  function prepare() {
    if (texts) return texts;
    const ids = Parcels.table.of.parcel_id.texts();
    const addresses = Parcels.table.of.address.texts();
    texts = ids.map((id, row) => folded(addresses[row] ? id + "\n" + addresses[row] : id));
    return texts;
  }

  // Rows that hold every word; the id itself first, then ids that begin so, then the others in the
  // order of the data.
  function find(wanted) {
    const whole = folded(wanted.trim());
    const words = whole.split(/\s+/);
    const found = [[], [], []];
    prepare().forEach((text, row) => {
      if (!words.every((word) => text.includes(word))) return;
      const begins = text.startsWith(whole);
      const ends = text.length === whole.length || text[whole.length] === "\n";
      found[begins && ends ? 0 : begins ? 1 : 2].push(row);
    });
    return found.flat();
  }

  function result(row) {
    const button = element("button", "", element("bdi", "", Parcels.id(row)), " ", element("bdi", "address", Parcels.address(row)));
    button.type = "button";
    button.append(element("span", "small", Parcels.stateOf(row).label));
    button.addEventListener("click", () => {
      TheMap.select(row, true);
      document.getElementById("sheet").focus({ preventScroll: window.innerWidth > 700 });
    });
    return element("li", "", button);
  }

  function search() {
    const wanted = field.value;
    const begin = performance.now();
    const rows = wanted.trim() === "" ? [] : find(wanted);
    list.replaceChildren(...rows.slice(0, most).map(result));
    const count = rows.length > most ? `${Words.whole(rows.length)} parcels, the first ${most} here` : `${rows.length} ${rows.length === 1 ? "parcel" : "parcels"}`;
    said.textContent = wanted.trim() === "" ? "" : rows.length === 0 ? "No parcel has that in its id or address." : count + ".";
    list.dataset.ms = (performance.now() - begin).toFixed(1);
  }

  const buttons = () => [...list.querySelectorAll("button")];
  function step(event) {
    const way = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    if (!way) return;
    event.preventDefault();
    const place = buttons().indexOf(document.activeElement) + way;
    if (place < 0) field.focus();
    else buttons()[Math.min(place, buttons().length - 1)]?.focus();
  }

  field.addEventListener("input", search);
  field.addEventListener("keydown", step);
  list.addEventListener("keydown", step);
  document.getElementById("find").addEventListener("submit", (event) => {
    event.preventDefault();
    search();
    if (buttons().length === 1) buttons()[0].click();
    else buttons()[0]?.focus();
  });
  setTimeout(prepare, 400);
})();
