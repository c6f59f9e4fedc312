// Made by `npm run messages`.
/** Languages that have catalogues; English, which the others fall back to, comes first. */
export const languages = ['en', 'es', 'ja', 'ko', 'pt-BR', 'th'] as const;

/** Those of them that no grower has read yet. */
export const machineMade: readonly string[] = ['es', 'ja', 'ko', 'pt-BR', 'th'];
