/** What a fitter does next in a room, from the last plan and from what this phone knows beyond it; no figure is made here. */

/**
 * @typedef {{to: string[], act: string, said: string, left?: number, of?: number}} Step
 *   `to`: the screen within the job; `act`: the words on its button; `said`: why; `left` of `of` first stations are unread
 */

/**
 * Legs that the plan moved after they were set go before all, then holes that it moved after they were drilled; then reading, choosing, setting out on the wall, setting legs, and paper.
 * @param {string} room id
 * @param {{survey: any, datum: any, units: any[], runs?: {run: string, name: string, unread: number, open: number, moved: number}[],
 *   drilled?: {id: string, name: string, moved: number}[]}} plan
 *   the room's parts, and those of its units that are there; `runs`: of each run, what of its wall nobody has read, and which of its
 *   marks are not made or have moved; `drilled`: of each carcass, how many holes the plan moved after they were drilled
 * @param {{reads: Set<string>, goodEnough: Set<string>, decisions: Map<string, {raw: string}>, legsSet: Map<string, unknown>}} local
 *   spots with a live reading, rooms done without stations in between, decisions and ticks that the plan does not hold yet
 * @returns {Step}
 */
export function nextStep(room, { survey, datum, units, runs = [], drilled = [] }, local) {
  const words = survey?.next_words ?? "";
  const stations = survey?.stations ?? [];
  const unread = (one) => one.state === "unread" && !local.reads.has(one.id);
  const first = stations.filter((one) => one.pass === 1);
  const left = first.filter(unread).length;
  const mine = local.decisions.get(room);
  const legs = datum?.decided && !mine ? legsStep(units, local, words) : null;
  if (legs?.urgent) return legs;
  const holes = drilled.find((one) => one.moved);
  if (holes) {
    const said = `The plan moved ${holes.moved === 1 ? "a hole" : `${holes.moved} holes`} of ${holes.name} after ${holes.moved === 1 ? "it was" : "they were"} drilled.`;
    return { to: ["panels", holes.id], act: `See the holes of ${holes.name}`, said };
  }
  if (left || !first.length) {
    return { to: ["survey", room], act: first.length && left < first.length ? "Carry on reading" : "Start the survey", said: words, left, of: first.length };
  }
  if (mine) return { to: ["datum", room], act: "See the choice", said: `The datum ${mine.raw} is chosen on this phone. Leg heights follow once the office has it.` };
  if (legs) return settingOut(room, runs) ?? legs;
  if (datum?.rivals?.length) return { to: ["datum", room], act: "Agree on one datum", said: "The datum was chosen more than once, so none is used." };
  if (first.some((one) => one.state === "unread")) {
    return { to: ["entries"], act: "See the entries", said: "All is read on this phone. Levels and the datum follow once the office has the readings." };
  }
  if (!local.goodEnough.has(room) && stations.some((one) => one.pass > 1 && unread(one))) return { to: ["survey", room], act: "Carry on reading", said: words };
  return { to: ["datum", room], act: "Choose the datum", said: words };
}

/** With the datum known, the walls are read and the rods marked before anything stands in front of them. */
function settingOut(room, runs) {
  const moved = runs.find((one) => one.moved);
  if (moved) return { to: ["run", moved.run], act: `See the marks of ${moved.name}`, said: `The plan moved ${moved.moved === 1 ? "a mark" : `${moved.moved} marks`} of ${moved.name} after ${moved.moved === 1 ? "it was" : "they were"} made.` };
  const unread = runs.filter((one) => one.unread);
  if (unread.length) return { to: ["walls", room], act: "Read the walls", said: `The datum is decided. Next, the walls: ${unread.map((one) => `${one.name} has ${one.unread} to read`).join(", ")}.` };
  const open = runs.find((one) => one.open);
  return open ? { to: ["run", open.run], act: `Mark out ${open.name}`, said: `${open.open} ${open.open === 1 ? "mark is" : "marks are"} still to be made on the batten.` } : null;
}

function legsStep(units, { legsSet }, words) {
  const held = units.filter((unit) => unit.legs.length);
  const moved = held.filter((unit) => !legsSet.has(unit.id) && unit.legs.some((leg) => leg.wind));
  if (moved.length) {
    const said = `The plan changed after legs were set: ${moved.length === 1 ? "unit" : "units"} ${moved.map((unit) => unit.number).join(", ")}.`;
    return { urgent: true, to: ["unit", moved[0].id], act: "Wind the legs", said };
  }
  const open = held.some((unit) => !legsSet.has(unit.id) && !unit.legs.every((leg) => leg.set_at));
  if (open || !held.length) return { to: ["units"], act: "Set the legs", said: words };
  return { to: ["sheets"], act: "Print the sheets", said: "The legs of every unit are set." };
}
