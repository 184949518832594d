// The ten-item laterality inventory: Oldfield RC, The assessment and analysis of handedness: the Edinburgh inventory,
// Neuropsychologia 1971;9:97-113. One plus for the preferred hand, two where the other would never be used unless forced,
// one for each hand where there is no preference; quotient = 100 (R − L) / (R + L). The items are Oldfield's, the wording ours.

export const items = ['writing', 'drawing', 'throwing', 'scissors', 'toothbrush', 'knife', 'spoon', 'broom', 'match', 'lid'];

/** Pluses [left, right] of each answer. */
export const answers = {
  'always-left': [2, 0],
  'usually-left': [1, 0],
  either: [1, 1],
  'usually-right': [0, 1],
  'always-right': [0, 2],
};

/** The quotient of `given` (item → answer; items without an answer are left out): { quotient, count }, quotient null if nothing was answered. */
export function lateralityQuotient(given) {
  let left = 0;
  let right = 0;
  let count = 0;
  for (const item of items) {
    const pluses = answers[given[item]];
    if (!pluses) continue;
    left += pluses[0];
    right += pluses[1];
    count += 1;
  }
  if (count === 0) return { quotient: null, count };
  const tenths = Math.round((1000 * (right - left)) / (right + left));
  const text = tenths % 10 === 0 ? String(tenths / 10) : (tenths / 10).toFixed(1);
  // Rounding a small negative gives −0, which is no number in the document.
  return { quotient: text === '-0' ? '0' : text, count };
}
