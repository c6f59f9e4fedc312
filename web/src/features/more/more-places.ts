/** The pages that “More” leads to, by their addresses; what each is called stands in its own catalogue, which the first page is spared. */
export const morePlaces = [
  'practice',
  'seasons',
  'records',
  'import',
  'incoming',
  'keys',
  'people',
  'who-did-what',
  'account',
  'weather',
  'retention',
  'notifications',
  'settings',
  'help',
] as const;
