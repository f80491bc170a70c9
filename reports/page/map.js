// The map on the page: what is seen of it, pointer and keys, what is selected.
const TheMap = (() => {
  const plot = document.getElementById("plot");
  const canvas = document.getElementById("canvas");
  const all = Painter.extent();
  const slow = 45; // ms; a picture that takes longer is moved first and drawn when all is quiet
  const quiet = 80;

  let width = 1;
  let height = 1;
  let ratio = 1;
  let view = null;
  let least = 1e-6;
  let selected = -1;
  let onSelect = () => {};

  // The last whole picture, for the moments in between.
  const kept = { canvas: document.createElement("canvas"), view: null };
  let lasted = 0;
  let waiting = 0;
  let timer = 0;
  let drawnTimes = 0;

  function draw() {
    clearTimeout(timer);
    const begin = performance.now();
    Painter.paint(canvas, view, width, height, ratio, selected);
    lasted = performance.now() - begin;
    kept.canvas.width = canvas.width;
    kept.canvas.height = canvas.height;
    kept.canvas.getContext("2d", { alpha: false }).drawImage(canvas, 0, 0);
    kept.view = view;
    plot.dataset.drawn = String(++drawnTimes);
    if (document.activeElement === plot) cross();
  }

  function moveKept() {
    const ink = canvas.getContext("2d", { alpha: false });
    const factor = view.scale / kept.view.scale;
    const [x, y] = view.toPage(kept.view.x, kept.view.y, width, height);
    ink.setTransform(1, 0, 0, 1, 0, 0);
    ink.fillStyle = "#fbfaf5";
    ink.fillRect(0, 0, canvas.width, canvas.height);
    ink.setTransform(factor, 0, 0, factor, (x - (width / 2) * factor) * ratio, (y - (height / 2) * factor) * ratio);
    ink.drawImage(kept.canvas, 0, 0);
  }

  // While a finger or wheel moves, a slow picture is moved first; a key or button draws at once.
  function changed(moving) {
    if (waiting) return;
    waiting = requestAnimationFrame(() => {
      waiting = 0;
      if (!moving || lasted < slow || !kept.view) return draw();
      moveKept();
      clearTimeout(timer);
      timer = setTimeout(draw, quiet);
    });
  }

  // The cross comes and goes with the focus.
  function refocused() {
    if (!kept.view || kept.view !== view) return;
    const ink = canvas.getContext("2d", { alpha: false });
    ink.setTransform(1, 0, 0, 1, 0, 0);
    ink.drawImage(kept.canvas, 0, 0);
    if (document.activeElement === plot) cross();
  }

  // Where Enter points to.
  function cross() {
    const ink = canvas.getContext("2d", { alpha: false });
    ink.setTransform(ratio, 0, 0, ratio, width / 2 * ratio, height / 2 * ratio);
    for (const [colour, line] of [["#ffffff", 4], ["#a3123a", 1.5]]) {
      ink.strokeStyle = colour;
      ink.lineWidth = line;
      ink.beginPath();
      ink.moveTo(-10, 0);
      ink.lineTo(10, 0);
      ink.moveTo(0, -10);
      ink.lineTo(0, 10);
      ink.stroke();
    }
  }

  function fit() {
    const box = plot.getBoundingClientRect();
    if (box.width < 2 || box.height < 2) return;
    width = box.width;
    height = box.height;
    ratio = Math.min(2, window.devicePixelRatio || 1);
    canvas.width = Math.round(width * ratio);
    canvas.height = Math.round(height * ratio);
    const whole = View.of(all, width, height);
    least = whole.scale / 4;
    view = view || whole;
    draw();
  }

  function set(next, moving = false) {
    view = next;
    changed(moving);
  }
  const closer = (factor, x = width / 2, y = height / 2, moving = false) =>
    set(view.closer(factor, x, y, width, height, least), moving);
  const whole = () => set(View.of(all, width, height));

  function look([west, south, east, north]) {
    const room = Math.max(60, 0.08 * Math.max(east - west, north - south));
    view = View.of([west - room, south - room, east + room, north + room], width, height);
  }

  function select(row, showAll) {
    selected = row;
    if (row >= 0 && showAll) look(Painter.reachOf(row));
    if (view) draw();
    onSelect(row);
  }

  function selectAt(x, y) {
    const ground = view.toGround(x, y, width, height);
    select(Painter.rowAt(...ground, 14 / view.scale), false);
  }

  // --- pointer ---------------------------------------------------------------------------------

  const fingers = new Map();
  let travelled = 0;
  let spread = 0;

  const spot = (event) => {
    const box = plot.getBoundingClientRect();
    return [event.clientX - box.left, event.clientY - box.top];
  };
  const middle = () => {
    const spots = [...fingers.values()];
    return [0, 1].map((axis) => spots.reduce((sum, s) => sum + s[axis], 0) / spots.length);
  };
  const distance = () => {
    const [a, b] = [...fingers.values()];
    return b ? Math.hypot(a[0] - b[0], a[1] - b[1]) : 0;
  };

  plot.addEventListener("pointerdown", (event) => {
    plot.setPointerCapture(event.pointerId);
    if (fingers.size === 0) travelled = 0;
    fingers.set(event.pointerId, spot(event));
    spread = distance();
  });
  plot.addEventListener("pointermove", (event) => {
    if (!fingers.has(event.pointerId)) return;
    const before = middle();
    fingers.set(event.pointerId, spot(event));
    const after = middle();
    travelled += Math.hypot(after[0] - before[0], after[1] - before[1]);
    if (travelled < 4 && fingers.size === 1) return;
    view = view.moved(after[0] - before[0], after[1] - before[1]);
    if (fingers.size === 2 && spread > 0) {
      closer(distance() / spread, ...after, true);
      spread = distance();
    }
    changed(true);
  });
  const lifted = (event) => {
    const single = fingers.size === 1 && fingers.has(event.pointerId);
    fingers.delete(event.pointerId);
    spread = distance();
    if (single && travelled < 4 && event.type === "pointerup") selectAt(...spot(event));
  };
  plot.addEventListener("pointerup", lifted);
  plot.addEventListener("pointercancel", lifted);
  plot.addEventListener(
    "wheel",
    (event) => {
      event.preventDefault();
      closer(Math.exp(-event.deltaY * (event.deltaMode === 1 ? 0.05 : 0.0018)), ...spot(event), true);
    },
    { passive: false },
  );

  // --- keys ------------------------------------------------------------------------------------

  const keys = {
    ArrowLeft: () => set(view.moved(width / 5, 0)),
    ArrowRight: () => set(view.moved(-width / 5, 0)),
    ArrowUp: () => set(view.moved(0, height / 5)),
    ArrowDown: () => set(view.moved(0, -height / 5)),
    "+": () => closer(1.6),
    "=": () => closer(1.6),
    "-": () => closer(1 / 1.6),
    0: whole,
    Enter: () => selectAt(width / 2, height / 2),
    Escape: () => select(-1, false),
  };
  plot.addEventListener("keydown", (event) => {
    const act = keys[event.key];
    if (!act || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    act();
  });
  plot.addEventListener("focus", refocused);
  plot.addEventListener("blur", refocused);
  document.getElementById("closer").addEventListener("click", () => closer(1.6));
  document.getElementById("wider").addEventListener("click", () => closer(1 / 1.6));
  document.getElementById("whole").addEventListener("click", whole);

  // --- paper -----------------------------------------------------------------------------------

  // A sharp picture of what is seen, for the printer.
  function picture() {
    const sheet = document.createElement("canvas");
    const wide = width / height > 1 ? width : height * 1.3;
    const sharp = 2000 / wide;
    sheet.width = 2000;
    sheet.height = Math.round(height * sharp);
    Painter.paint(sheet, view, wide, height, sharp, selected);
    return sheet;
  }

  new ResizeObserver(fit).observe(plot);

  return {
    start(select) {
      onSelect = select;
      fit();
    },
    setParcels(question, shown) {
      Painter.setParcels(question, shown);
      if (view) draw();
    },
    select,
    look(box) {
      look(box);
      draw();
    },
    picture,
    redraw: fit,
  };
})();
