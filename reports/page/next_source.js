// Sources of water that are proposed, and what each parcel would gain by them. Only where the
// district file asks for it: else `there` is false and nobody gains.
const NextSource = (() => {
  const there = Packed.has("source_proposals");
  const proposals = there ? Packed.table("source_proposals") : null;
  const count = there ? proposals.rows : 0;

  // Parcel row -> its steps { rank, before, after }, gpm; and gpm gained by all of them.
  const steps = new Map();
  const gained = new Float64Array(Parcels.rows);
  if (there) {
    const { proposal, parcel, before_gpm, after_gpm, gained_gpm } = Packed.table("next_source_gains").of;
    parcel.numbers().forEach((row, i) => {
      if (!steps.has(row)) steps.set(row, []);
      steps.get(row).push({ rank: proposal.numbers()[i], before: before_gpm.numbers()[i], after: after_gpm.numbers()[i] });
      gained[row] += gained_gpm.numbers()[i];
    });
  }

  const text = (column, rank) => proposals.of[column].texts()[rank];
  const number = (column, rank) => proposals.of[column].numbers()[rank];
  const name = (rank) => text("name", rank) || text("source_id", rank);

  return { there, count, text, number, name, stepsOf: (row) => steps.get(row) || [], gained: (row) => gained[row], rows: () => steps };
})();
