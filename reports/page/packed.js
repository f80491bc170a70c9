// Tables as reports/page/packed_table.h packs them, read column by column when they are asked for.
const Packed = (() => {
  const form = { numbers: 0, words: 1, texts: 2, shapes: 3 };
  const utf8 = new TextDecoder();

  function bytesOf(base64) {
    if (Uint8Array.fromBase64) return Uint8Array.fromBase64(base64); // much quicker, where it is
    const raw = atob(base64);
    const bytes = new Uint8Array(raw.length);
    for (let i = 0; i < raw.length; i++) bytes[i] = raw.charCodeAt(i);
    return bytes;
  }

  class Reader {
    constructor(bytes) {
      this.bytes = bytes;
      this.at = 0;
    }
    count() {
      let byte = this.bytes[this.at++];
      if (byte < 128) return byte;
      let number = byte & 127;
      for (let scale = 128; byte >= 128; scale *= 128) {
        byte = this.bytes[this.at++];
        number += (byte & 127) * scale;
      }
      return number;
    }
    signed() {
      const count = this.count();
      if (count < 0x7fffffff) return (count >>> 1) ^ -(count & 1);
      return count % 2 === 0 ? count / 2 : -(count + 1) / 2;
    }
    slice(length) {
      this.at += length;
      return this.bytes.subarray(this.at - length, this.at);
    }
    text() {
      return utf8.decode(this.slice(this.count()));
    }
  }

  class Column {
    constructor(reader, rows) {
      this.rows = rows;
      this.name = reader.text();
      this.description = reader.text();
      this.form = reader.count();
      this.decimals = reader.count();
      this.bytes = reader.slice(reader.count());
    }

    // NaN where there is none.
    numbers() {
      if (this.kept) return this.kept;
      const reader = new Reader(this.bytes);
      const unit = 10 ** this.decimals;
      const numbers = new Float64Array(this.rows);
      for (let row = 0; row < this.rows; row++) {
        const count = reader.count();
        const twice = count - 1;
        numbers[row] = count === 0 ? NaN : (twice % 2 === 0 ? twice / 2 : -(twice + 1) / 2) / unit;
      }
      return (this.kept = numbers);
    }

    // words[0] is "", codes tell which word a row has.
    words() {
      if (this.keptWords) return this.keptWords;
      const words = [""];
      const codes = new Uint32Array(this.rows);
      if (this.form === form.words) {
        const reader = new Reader(this.bytes);
        for (let left = reader.count(); left > 0; left--) words.push(reader.text());
        for (let row = 0; row < this.rows; row++) codes[row] = reader.count();
      } else {
        const known = new Map([["", 0]]);
        this.texts().forEach((text, row) => {
          if (!known.has(text)) known.set(text, words.push(text) - 1);
          codes[row] = known.get(text);
        });
      }
      return (this.keptWords = { words, codes });
    }

    // "" where there is none.
    texts() {
      if (this.kept) return this.kept;
      if (this.form === form.words) {
        const { words, codes } = this.words();
        this.kept = Array.from(codes, (code) => words[code]);
      } else {
        this.kept = this.rows === 0 ? [] : utf8.decode(this.bytes).split("\u001e");
      }
      return this.kept;
    }

    // Parts of row r: rows[r] .. rows[r + 1]; vertices of part p: parts[p] .. parts[p + 1].
    shapes() {
      if (this.kept) return this.kept;
      const reader = new Reader(this.bytes);
      const rows = new Int32Array(this.rows + 1);
      const parts = [0];
      const east = new Int32Array(this.bytes.length / 2 + 1);
      const north = new Int32Array(this.bytes.length / 2 + 1);
      let vertex = 0;
      let x = 0;
      let y = 0;
      for (let row = 0; row < this.rows; row++) {
        for (let left = reader.count(); left > 0; left--) {
          for (let more = reader.count(); more > 0; more--) {
            east[vertex] = x += reader.signed();
            north[vertex] = y += reader.signed();
            vertex++;
          }
          parts.push(vertex);
        }
        rows[row + 1] = parts.length - 1;
      }
      return (this.kept = { rows, parts: Int32Array.from(parts), east, north });
    }

    // As a reader would see it.
    shown(row) {
      if (this.form !== form.numbers) return this.texts()[row];
      const number = this.numbers()[row];
      return Number.isNaN(number) ? "" : number.toFixed(this.decimals);
    }
  }

  class Table {
    constructor(name) {
      const element = document.getElementById("data-" + name);
      const reader = new Reader(bytesOf(element.textContent));
      element.remove();
      this.name = name;
      this.rows = reader.count();
      this.columns = [];
      const columns = reader.count();
      this.title = reader.text();
      this.description = reader.text();
      for (let i = 0; i < columns; i++) this.columns.push(new Column(reader, this.rows));
      this.of = Object.fromEntries(this.columns.map((column) => [column.name, column]));
    }
  }

  const read = new Map();
  return {
    form,
    has: (name) => read.has(name) || document.getElementById("data-" + name) !== null,
    table(name) {
      if (!read.has(name)) read.set(name, new Table(name));
      return read.get(name);
    },
  };
})();
