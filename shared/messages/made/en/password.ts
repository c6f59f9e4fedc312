// Made from ../../en/password.json by `npm run messages`; change that instead.
export const passwordTexts = {
  "password.too-short": "The password must have at least {leastCount, plural, one {# character} other {# characters}}; four words in a row do well.",
  "password.too-long": "The password must have at most {mostCount, plural, one {# character} other {# characters}}.",
  "password.few-characters": "The password repeats the same few characters: use more different ones.",
  "password.repeats": "The password repeats itself: choose one that does not.",
  "password.guessable": "The password is too easy to guess: it is made of common words, names or runs of keys; add words of your own.",
};
