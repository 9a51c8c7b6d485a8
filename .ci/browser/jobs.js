// Jobs nobody drew by hand, for the labels of the drawings: roofs of many sizes and pitches, rafters
// at uneven distances, one field or three, long names, weak hooks. The same seed is the same job.

// A small generator of even numbers, so that every run checks the same jobs.
function numbers(seed) {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

const names = ["A", "B2", "North wing", "Stable-yard upper", "Feld Süd-West", "Q"];

// A job changed from a given one; `seed` says how.
export function changed(job, seed) {
  const next = numbers(seed * 7919 + 17);
  for (let i = 0; i < 5; i += 1) next();
  const between = (low, high) => low + (high - low) * next();
  const pick = (list) => list[Math.floor(next() * list.length)];
  const made = structuredClone(job);
  const pitch = Math.round(between(22, 58));
  const length = Math.round(between(6, 42) * 10) / 10;
  const slope = Math.round(between(3600, 9500));
  const width = Math.round((2 * slope * Math.cos((pitch * Math.PI) / 180)) / 100) / 10;
  made.reference = pick(["r", "a-reference-of-one-word-that-is-rather-longer-than-most-others-are", `Job ${seed}`]);
  made.roof = {
    ...made.roof,
    pitch_deg: pitch,
    length_m: length,
    width_m: Math.max(width, 3),
    ridge_height_m: Math.round((4 + between(0, 8)) * 10) / 10,
    outline_mm: [[0, 0], [length * 1000, 0], [length * 1000, slope], [0, slope]],
    obstacles: next() < 0.5 ? [] : [{
      kind: pick(["chimney", "roof_window", "dormer", "snow_guard", "aerial"]),
      outline_mm: [[length * 1000 - 900, slope - 900], [length * 1000 - 400, slope - 900], [length * 1000 - 400, slope - 300], [length * 1000 - 900, slope - 300]],
      clearance_mm: 100,
    }],
  };
  const spacing = between(520, 950);
  const positions = [Math.round(between(40, 300))];
  while (positions.at(-1) + spacing * 1.1 < length * 1000 - 50) positions.push(Math.round(positions.at(-1) + spacing * between(0.9, 1.1)));
  const { first_mm, spacing_mm, count, ...rafters } = made.roof.rafters;
  made.roof.rafters = { ...rafters, positions_mm: positions };

  const module = made.array.module;
  const gap = 20;
  const fields = Math.min(1 + Math.floor(next() * 3), Math.max(1, Math.floor(length / 8)));
  const bay = (length * 1000 - 1600) / fields;
  made.array.fields = Array.from({ length: fields }, (_, i) => {
    const orientation = pick(["portrait", "portrait", "landscape"]);
    const [along, up] = orientation === "portrait" ? [module.width_mm, module.length_mm] : [module.length_mm, module.width_mm];
    const columns = Math.max(1, Math.min(Math.floor((bay - 300) / (along + gap)), 12));
    const rows = Math.max(1, Math.min(Math.floor((slope - 1300) / (up + gap)), 5));
    return {
      ...job.array.fields[0],
      id: `${names[(seed + i) % names.length]}${i || ""}`,
      origin_mm: [Math.round(400 + i * bay), Math.round(between(350, 500))],
      rows, columns, orientation, omitted: [],
    };
  });
  if (next() < 0.3) delete made.components.hook.stiffness;
  if (next() < 0.3) made.components.hook.resistance.lift_kn = 0.5;
  made.wishes = { ...made.wishes, search_limit: 2000 };
  return made;
}
