// Every word on the page comes from one file per language.
let words = {};
let locale;

export async function loadText(language = 'en') {
  words = await (await fetch(`text.${language}.json`)).json();
  // Dates as this device writes them, where it speaks the language of the page.
  locale = navigator.languages.find((tag) => tag.split('-')[0] === words.language) ?? words.language;
  document.documentElement.lang = words.language;
  document.documentElement.dir = words.direction;
}

/** The text of `key`, with {names} replaced. A key with forms for number takes the one for `values.count`. */
export function t(key, values = {}) {
  let text = words.text[key];
  if (text === undefined && values.count !== undefined) {
    text = words.text[`${key}.${new Intl.PluralRules(words.language).select(values.count)}`] ?? words.text[`${key}.other`];
  }
  if (text === undefined) throw new Error(`No text for ${key}`);
  return text.replace(/\{(\w+)\}/g, (whole, name) => values[name] ?? whole);
}

/** True if there is a text of `key`. */
export const hasText = (key) => key in words.text;

/** A sentence of the instrument's definition in the language of the page; as it stands where the language has none. */
export const definition = (sentence) => words.definition[sentence] ?? sentence;

export const dateText = (isoDate) => {
  const [year, month, day] = isoDate.split('-').map(Number);
  return new Intl.DateTimeFormat(locale, { day: 'numeric', month: 'long', year: 'numeric', timeZone: 'UTC' })
    .format(new Date(Date.UTC(year, month - 1, day)));
};

export const momentText = (milliseconds) =>
  new Intl.DateTimeFormat(locale, { day: 'numeric', month: 'short', hour: '2-digit', minute: '2-digit' }).format(milliseconds);

/** How long ago, in the largest fitting unit. */
export function ageText(milliseconds) {
  const minutes = Math.max(1, Math.floor(milliseconds / 60000));
  if (minutes < 60) return t('age.minutes', { count: minutes });
  if (minutes < 48 * 60) return t('age.hours', { count: Math.floor(minutes / 60) });
  return t('age.days', { count: Math.floor(minutes / 1440) });
}
