/** A code as it is typed: capitals, the stroke put in by us, nothing past the eighth sign. */
export function tidyCode(text: string): string {
  const signs = text
    .toUpperCase()
    .replace(/[^0-9A-Z]/g, "")
    .slice(0, 8);
  return signs.length > 4 ? `${signs.slice(0, 4)}-${signs.slice(4)}` : signs;
}
