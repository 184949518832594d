// Seconds are text from the tap to the document, so that 12.40 stays 12.40.

/** What was typed as seconds: { text } with a decimal point, or { problem } (a key of the text file). */
export function parseSeconds(typed, { maxSeconds, maxDecimals }) {
  const text = typed.trim().replace(',', '.');
  if (text === '') return { problem: 'seconds.missing' };
  if (!/^\d{1,4}(\.\d+)?$/.test(text)) return { problem: 'seconds.notNumber' };
  if ((text.split('.')[1] ?? '').length > maxDecimals) return { problem: 'seconds.tooManyDecimals' };
  const plain = text.replace(/^0+(?=\d)/, '');
  if (hundredths(plain) <= 0) return { problem: 'seconds.notPositive' };
  if (hundredths(plain) > maxSeconds * 100) return { problem: 'seconds.tooLong' };
  return { text: plain };
}

/** Whole hundredths of a second in `text`, for exact sums and comparisons. */
export function hundredths(text) {
  const [whole, part = ''] = String(text).split('.');
  const sign = whole.startsWith('-') ? -1 : 1;
  return sign * (Math.abs(Number(whole)) * 100 + Number(part.padEnd(2, '0').slice(0, 2)));
}

/** Hundredths as text with a sign, both decimals shown. */
export function signedSeconds(value) {
  const size = Math.abs(value);
  return `${value < 0 ? '\u2212' : value > 0 ? '+' : ''}${Math.floor(size / 100)}.${String(size % 100).padStart(2, '0')}`;
}
