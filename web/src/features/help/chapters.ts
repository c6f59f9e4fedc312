/** The chapters of the help in the order of reading, and which of them speaks of which page. */
export const chapters = ['first-steps', 'probes', 'squeeze'] as const;
export type Chapter = (typeof chapters)[number];

export const isChapter = (text: string): text is Chapter => chapters.some((chapter) => chapter === text);

/** The first that fits. */
const ofPages: readonly (readonly [RegExp, Chapter])[] = [
  [/^\/piles\/new$/, 'first-steps'],
  [/^\/piles\/[^/]+\/journal/, 'squeeze'],
  [/^\/probes/, 'probes'],
  [/^\/(practice|plan)/, 'first-steps'],
];

/** @param isEmpty Whether no pile is watched yet. @returns Null where all chapters are to be offered. */
export function chapterFor(path: string, isEmpty: boolean): Chapter | null {
  if (path === '/' && isEmpty) return 'first-steps';
  return ofPages.find(([pattern]) => pattern.test(path))?.[1] ?? null;
}

export const chapterPath = (chapter: Chapter) => `/help/${chapter}`;
