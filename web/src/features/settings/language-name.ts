/** As its own readers call it. */
export const languageName = (language: string): string =>
  new Intl.DisplayNames([language], { type: 'language' }).of(language) ?? language;
