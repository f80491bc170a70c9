// What the map can be asked. A question sorts every parcel into one class; each class has words and
// a look. Ramps: viridis (van der Walt and Smith 2015) and PuOr (ColorBrewer, Brewer 2013), both
// told apart with colour-blind eyes; the loose colours are of Okabe and Ito 2008.
const Questions = (() => {
  const notKnown = { label: "not known", look: { fill: "#efefef", ink: "#6a6a6a", hatch: "fall" } };
  const noBuilding = { label: "without a building", look: { fill: "#fbfaf5", ink: "#fbfaf5" }, faint: true };
  const wheels = { fill: "#b35806", ink: "#ffe3c2", hatch: "rise", width: 1.6 };
  const noWay = { fill: "#4a2503", ink: "#ffffff", hatch: "cross" };

  const looksOfStates = {
    held: { fill: "#542788" },
    late: { fill: "#998ec3", ink: "#3b1a66", hatch: "dots" },
    short: { fill: "#f1a340" },
    tank_only: wheels,
    unreached: noWay,
    unknown: notKnown.look,
    no_building: noBuilding.look,
  };
  const stateClasses = Words.states.map(({ word, label, share }) => ({
    label,
    look: looksOfStates[word],
    faint: !share,
  }));

  // Classes of a ramp by upper bounds, then what is on no ramp.
  function ramped(bounds, colours, words, others) {
    const classes = colours.map((fill, i) => ({ label: words[i], look: { fill } }));
    const placeOf = (number) => {
      const place = bounds.findIndex((bound) => number <= bound);
      return place < 0 ? bounds.length : place;
    };
    return { classes: [...classes, ...others], placeOf, first: classes.length };
  }

  const noFlow = { label: "no flow that keeps coming", look: wheels };
  const flows = ramped(
    [225, 475, 700, 950, 1450],
    ["#fde725", "#7ad151", "#22a884", "#2a788e", "#414487", "#440154"],
    ["25 to 225", "250 to 475", "500 to 700", "750 to 950", "1,000 to 1,450", "1,500 and more"],
    [noFlow, notKnown, noBuilding],
  );
  const gaps = ramped(
    [100, 250, 500],
    ["#fee0b6", "#f1a340", "#b35806", "#7f3b08"],
    ["short by up to 100", "short by up to 250", "short by up to 500", "short by more than 500"],
    [
      { label: "meets planned flow", look: { fill: "#998ec3" } },
      { label: "meets planned flow with margin", look: { fill: "#542788" } },
      notKnown,
      noBuilding,
    ],
  );
  // Sooner is darker.
  const soonRamp = ["#440154", "#414487", "#2a788e", "#22a884", "#7ad151", "#fde725"];
  const first = ramped(
    [8, 12, 16, 20, 30],
    soonRamp,
    ["within 8", "8 to 12", "12 to 16", "16 to 20", "20 to 30", "later than 30"],
    [{ label: "no engine gets there", look: noWay }, notKnown, noBuilding],
  );
  const lasting = ramped(
    [15, 20, 25, 30, 45],
    soonRamp,
    ["within 15", "15 to 20", "20 to 25", "25 to 30", "30 to 45", "later than 45"],
    [{ label: "never within the planning time", look: wheels }, notKnown, noBuilding],
  );

  // `apart` parcels belong to the last two classes.
  const apart = (row, classes) =>
    !Parcels.improved(row) ? classes.length - 1 : !Parcels.answered(row) ? classes.length - 2 : -1;

  function byNumber(scale, numberOf, otherwise) {
    return (row) => {
      const place = apart(row, scale.classes);
      if (place >= 0) return place;
      const number = numberOf(row);
      return Number.isNaN(number) || number <= 0 ? scale.first + otherwise(row) : scale.placeOf(number);
    };
  }

  const loose = [
    { fill: "#0072b2" },
    { fill: "#e69f00", ink: "#6b4a00", hatch: "bars" },
    { fill: "#56b4e9" },
    { fill: "#d55e00", ink: "#ffffff", hatch: "rise" },
    { fill: "#009e73", ink: "#ffffff", hatch: "posts" },
    { fill: "#cc79a7", ink: "#5b1e40", hatch: "dots" },
    { fill: "#f0e442", ink: "#6f6800", hatch: "fall" },
    { fill: "#333333", ink: "#ffffff", hatch: "cross" },
  ];
  // The limits that occur, the most frequent first.
  const limits = (() => {
    const { words, codes } = Parcels.table.of.binding_limit.words();
    const counts = new Array(words.length).fill(0);
    codes.forEach((code, row) => {
      if (Parcels.answered(row)) counts[code]++;
    });
    const order = [...words.keys()].filter((code) => counts[code] > 0);
    order.sort((a, b) => counts[b] - counts[a] || a - b);
    const classes = order.map((code, i) => ({
      label: Words.limits[words[code]] || Words.readable(words[code] || "none"),
      look: loose[Math.min(i, loose.length - 1)],
    }));
    const place = words.map((_, code) => order.indexOf(code));
    return { classes: [...classes, notKnown, noBuilding], placeOf: (row) => place[codes[row]] };
  })();

  const further = ramped(
    [25, 100, 250],
    ["#d8daeb", "#998ec3", "#7157a4", "#542788"],
    ["up to 25 more", "25 to 100 more", "100 to 250 more", "more than 250 more"],
    [{ label: "nothing more", look: { fill: "#fee0b6" } }, { label: "meets planned flow now", look: { fill: "#f7f7f7", ink: "#9a9a9a", hatch: "dots" } }, notKnown, noBuilding],
  );

  const list = [
    {
      id: "flow",
      ask: "What flow is held?",
      unit: "Cautious flow, gpm, rounded down",
      classes: flows.classes,
      classOf: byNumber(flows, Parcels.flow, () => 0),
    },
    {
      id: "state",
      ask: "Is it enough?",
      unit: "Cautious flow against the planned flow",
      classes: stateClasses,
      classOf: (row) => Parcels.state[row],
    },
    {
      id: "shortfall",
      ask: "How much is missing?",
      unit: "Planned flow less cautious flow, gpm",
      classes: gaps.classes,
      classOf: byNumber(gaps, Parcels.shortfall, (row) => (Parcels.text("margin", row) === "firm" ? 1 : 0)),
    },
    {
      id: "limit",
      ask: "What holds it back?",
      unit: "What limits the flow",
      classes: limits.classes,
      classOf: (row) => {
        const place = apart(row, limits.classes);
        return place >= 0 ? place : limits.placeOf(row);
      },
    },
    {
      id: "first",
      ask: "When is the first water on?",
      unit: "First engine's tank on the fire, minutes since the alarm",
      classes: first.classes,
      classOf: byNumber(first, (row) => Parcels.numbers("tank_water_min")[row], () => 0),
    },
    {
      id: "lasting",
      ask: "When does water keep coming?",
      unit: "From then on never dry, minutes since the alarm",
      classes: lasting.classes,
      classOf: byNumber(lasting, (row) => Parcels.numbers("continuous_min")[row], () => 0),
    },
  ];
  if (NextSource.count > 0) {
    list.push({
      id: "next",
      ask: "What would the proposed sources give?",
      unit: "More of the planned flow by all of them, gpm",
      classes: further.classes,
      classOf: byNumber(further, NextSource.gained, (row) => (Parcels.stateOf(row).word === "held" ? 1 : 0)),
    });
  }

  // The class of every parcel, and how many parcels each class has; worked out once.
  function sorted(question) {
    if (!question.of) {
      question.of = new Uint8Array(Parcels.rows);
      question.counts = new Array(question.classes.length).fill(0);
      for (let row = 0; row < Parcels.rows; row++) {
        question.counts[(question.of[row] = question.classOf(row))]++;
      }
    }
    return question;
  }

  return { list, sorted, stateClasses };
})();
