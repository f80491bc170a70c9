// The parcels' answers, as documents may show them.
const Parcels = (() => {
  const table = Packed.table("parcels");
  const numbers = (name) => table.of[name].numbers();
  const text = (name, row) => table.of[name].texts()[row];
  const startAfterArrival = Number(Words.fact("start_after_arrival_min"));

  // Row -> place in Words.states.
  const state = (() => {
    const { words, codes } = table.of.state.words();
    const place = words.map((word) => Words.states.findIndex((known) => known.word === word));
    return Uint8Array.from(codes, (code) => place[code]);
  })();
  const stateOf = (row) => Words.states[state[row]];
  const improved = (row) => stateOf(row).share;
  const answered = (row) => improved(row) && stateOf(row).word !== "unknown";

  // gpm as shown; NaN where there is no answer.
  const rounded = (name, row) => Words.flow(numbers(name)[row], numbers("needed_gpm")[row]);
  const flow = (row) => rounded("cautious_gpm", row);
  const oneOut = (row) => rounded("one_tanker_out_gpm", row);
  const needed = (row) => Math.ceil(numbers("needed_gpm")[row] - 1e-9);
  // The other way that was looked at; 0 where there is none.
  const otherFlow = (row) => rounded("runner_up_gpm", row) || 0;
  // By the way that holds more from the start.
  const shortfall = (row) =>
    numbers("shortfall_gpm")[row] > 0
      ? needed(row) - Math.max(flow(row), otherFlow(row))
      : numbers("shortfall_gpm")[row];

  // Minutes since the alarm from which the flow is held; NaN where there is no flow.
  const start = (row) => (flow(row) > 0 ? numbers("first_engine_min")[row] + startAfterArrival : NaN);

  const count = new Array(Words.states.length).fill(0);
  state.forEach((place) => count[place]++);
  const allImproved = count.reduce((sum, n, i) => sum + (Words.states[i].share ? n : 0), 0);

  return {
    table,
    rows: table.rows,
    numbers,
    text,
    id: (row) => text("parcel_id", row),
    address: (row) => text("address", row),
    state,
    stateOf,
    improved,
    answered,
    flow,
    oneOut,
    needed,
    otherFlow,
    shortfall,
    start,
    count,
    allImproved,
    startAfterArrival,
  };
})();
