/** The pages that “More” leads to, by their addresses; what each is called stands in its own catalogue, which the first page is spared. */
export const morePlaces = [
  'batches',
  'probes',
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

/** Those that stand in the head of every page too. */
export const firstPlaces: readonly string[] = ['batches', 'probes', 'practice', 'seasons'];
