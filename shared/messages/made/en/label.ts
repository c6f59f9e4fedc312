// Made from ../../en/label.json by `npm run messages`; change that instead.
export const labelTexts = {
  "label.opens": "The code opens the journal of this pile.",
  "label.opens-here": "The code opens on this machine only. Set BRANHEARTH_PUBLIC_URL to the address that phones reach before you print it.",
};
