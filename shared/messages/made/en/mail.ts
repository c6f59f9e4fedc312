// Made from ../../en/mail.json by `npm run messages`; change that instead.
export const mailTexts = {
  "mail.foot": "Sensors alone never say that a pile is ready or safe. These messages are no fire protection.",
  "mail.seen-it": "I have seen this",
  "mail.seen-it-by-address": "I have seen this (opens a page with one button):",
  "mail.look": "Look at it",
  "mail.look-by-address": "Look at it:",
};
