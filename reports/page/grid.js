// The parcels' areas and the roads in square cells of the ground, so that drawing and pointing look
// at few of them. Coordinates are steps of the page's grid, north up.
const Grid = (() => {
  const perCell = 250;

  // Boxes of the rows of a shapes column: west, south, east, north each; empty rows have none.
  function boxesOf(shapes, rows) {
    const boxes = new Float64Array(rows * 4);
    for (let row = 0; row < rows; row++) {
      const box = [Infinity, Infinity, -Infinity, -Infinity];
      for (let v = shapes.parts[shapes.rows[row]]; v < shapes.parts[shapes.rows[row + 1]]; v++) {
        const x = shapes.east[v];
        const y = shapes.north[v];
        if (x < box[0]) box[0] = x;
        if (y < box[1]) box[1] = y;
        if (x > box[2]) box[2] = x;
        if (y > box[3]) box[3] = y;
      }
      boxes.set(box, row * 4);
    }
    return boxes;
  }

  function unionOf(boxes) {
    const all = [Infinity, Infinity, -Infinity, -Infinity];
    for (let i = 0; i < boxes.length; i += 4) {
      all[0] = Math.min(all[0], boxes[i]);
      all[1] = Math.min(all[1], boxes[i + 1]);
      all[2] = Math.max(all[2], boxes[i + 2]);
      all[3] = Math.max(all[3], boxes[i + 3]);
    }
    return all;
  }

  // Each row is in the cell of its box's middle; a cell's box holds all of its rows.
  function cellsOf(boxes) {
    const [west, south, east, north] = unionOf(boxes);
    const rows = boxes.length / 4;
    const across = Math.max(1, Math.ceil(Math.sqrt(rows / perCell)));
    const width = Math.max(1, (east - west) / across);
    const height = Math.max(1, (north - south) / across);
    const cells = new Map();
    for (let row = 0; row < rows; row++) {
      const box = boxes.subarray(row * 4, row * 4 + 4);
      if (box[0] > box[2]) continue;
      const column = Math.min(across - 1, Math.floor(((box[0] + box[2]) / 2 - west) / width));
      const line = Math.min(across - 1, Math.floor(((box[1] + box[3]) / 2 - south) / height));
      const key = line * across + column;
      if (!cells.has(key)) cells.set(key, { rows: [], box: [Infinity, Infinity, -Infinity, -Infinity] });
      const cell = cells.get(key);
      cell.rows.push(row);
      cell.box[0] = Math.min(cell.box[0], box[0]);
      cell.box[1] = Math.min(cell.box[1], box[1]);
      cell.box[2] = Math.max(cell.box[2], box[2]);
      cell.box[3] = Math.max(cell.box[3], box[3]);
    }
    return [...cells.values()];
  }

  class Layer {
    constructor(column) {
      this.shapes = column.shapes();
      this.boxes = boxesOf(this.shapes, column.rows);
      this.cells = cellsOf(this.boxes);
    }

    extent() {
      return unionOf(this.boxes);
    }

    // Draws a row's parts into a path, south down as a page has it, without vertices that are
    // nearer than `fine` steps to the one drawn before.
    trace(path, row, closed, fine) {
      const { rows, parts, east, north } = this.shapes;
      for (let part = rows[row]; part < rows[row + 1]; part++) {
        const last = parts[part + 1] - 1;
        let x = east[parts[part]];
        let y = north[parts[part]];
        path.moveTo(x, -y);
        for (let v = parts[part] + 1; v <= last; v++) {
          if (Math.abs(east[v] - x) + Math.abs(north[v] - y) < fine && (closed || v < last)) continue;
          x = east[v];
          y = north[v];
          path.lineTo(x, -y);
        }
        if (closed) path.closePath();
      }
    }

    // By the even-odd rule.
    holds(row, x, y) {
      const { rows, parts, east, north } = this.shapes;
      let inside = false;
      for (let part = rows[row]; part < rows[row + 1]; part++) {
        let from = parts[part + 1] - 1;
        for (let v = parts[part]; v < parts[part + 1]; from = v++) {
          const crosses = north[v] > y !== north[from] > y;
          const at = ((east[from] - east[v]) * (y - north[v])) / (north[from] - north[v]) + east[v];
          if (crosses && x < at) inside = !inside;
        }
      }
      return inside;
    }

    // The smallest row that holds the point; -1 for none.
    rowAt(x, y) {
      let best = -1;
      let least = Infinity;
      for (const cell of this.cells) {
        if (x < cell.box[0] || x > cell.box[2] || y < cell.box[1] || y > cell.box[3]) continue;
        for (const row of cell.rows) {
          const [west, south, east, north] = this.boxes.subarray(row * 4, row * 4 + 4);
          const size = (east - west) * (north - south);
          if (x >= west && x <= east && y >= south && y <= north && size < least && this.holds(row, x, y)) {
            best = row;
            least = size;
          }
        }
      }
      return best;
    }

    // The row whose box's middle is nearest, within `reach`; -1 for none.
    rowNear(x, y, reach) {
      let best = -1;
      let least = reach * reach;
      for (const cell of this.cells) {
        const [west, south, east, north] = cell.box;
        if (x < west - reach || x > east + reach || y < south - reach || y > north + reach) continue;
        for (const row of cell.rows) {
          const [x0, y0, x1, y1] = this.boxes.subarray(row * 4, row * 4 + 4);
          const away = ((x0 + x1) / 2 - x) ** 2 + ((y0 + y1) / 2 - y) ** 2;
          if (away < least) {
            best = row;
            least = away;
          }
        }
      }
      return best;
    }
  }

  return { Layer };
})();
