/** Parts of a small room as the server sends them: two runs in a corner. Figures are invented; nothing here works one out. */
export const figure = (mm, text = String(mm), why = "Read on site.") => ({ mm, text, why });

const HEIGHTS = ["floor", "batten"];
const station = (id, name, mm, more = {}) => ({ id, name, x: figure(mm), heights: HEIGHTS, serves: "", added: false, ...more });
const spots = (stations) => stations.flatMap(({ id, heights }) => heights.map((height) => ({ station: id, height, state: "unread", out: null, readings: [] })));
const STATIONS = [station("w1", "wall one", 0, { serves: "left end" }), station("w2", "wall two", 600, { serves: "batten fixing 2" }), station("w3", "wall three", 1200)];

export const wallsPart = (more = {}) => ({
  room: "kitchen",
  name: "Kitchen",
  heights: { batten: "at batten height", floor: "just over the floor", wall_units: "at wall-unit height", worktop: "at worktop height" }, // as they come: by letter
  depths: { back: "along the wall", front: "along the fronts" },
  limits: { greatest_mm: 3500, repeat_mm: 2, jump_mm: 8 },
  runs: [
    {
      run: "sink-run", name: "Sink run", lines: [], stations: STATIONS, spots: spots(STATIONS),
      openings: [{ height: "batten", depth: "back", width: figure(3000), entry: "opening-in-plan" }],
      end_walls: [],
      features: [{ id: "window", name: "window", what: "window", left: figure(1400), right: figure(2600), bottom: null, top: null, stands_out: figure(-90, "\u221290") }],
      next_words: "Read the wall.", ...more,
    },
  ],
  corners: [{ run: "sink-run", other_run: "hob-run", name: "corner of Sink run and Hob run", sides: [] }],
  findings: [],
});

const mark = (id, name, order, mm, more = {}) => ({
  id, name, row: "base", kind: "edge", items: [], from_left: figure(mm), from_anchor: figure(mm - 1200, mm < 1200 ? `\u2212${1200 - mm}` : `+${mm - 1200}`),
  from_right: figure(3000 - mm), order, marked: null, moved: null, ...more,
});

export const MARKS = [
  mark("zero", "zero mark", 2, 0, { kind: "zero" }),
  mark("sink-left", "sink unit, left edge", 3, 800),
  mark("sink-centre", "centre of the window", 1, 1200, { kind: "anchor" }),
  mark("end", "end mark", 4, 3000, { kind: "end" }),
  mark("wall-a", "wall unit A, left edge", 5, 600, { row: "wall" }),
  mark("sill", "sill, left end", 0, 1350, { kind: "centre" }),
];

export const runPart = (marks = MARKS) => ({
  run: "sink-run", name: "Sink run", room: "kitchen",
  rod: {
    opening: figure(3000), opening_words: "Narrowest of 3 measured.", anchor_words: "Sink unit centred on the window.", marks,
    fillers: [], left_over: figure(0), end_words: [], offsets: [],
  },
  lines: [], batten: null, scribes: [], fits: [], findings: [],
});
