// Made by `npm run messages`.

/** Texts of languages besides English, for pages: whoever reads none of them loads none. */
export const textLoaders: Readonly<Record<string, () => Promise<Readonly<Record<string, string>>>>> = {};
