const names = new Intl.Collator('en', { numeric: true });

/** Names that people gave, as people count: 2 before 10. Negative where `one` comes first. */
export const compareNames = (one: string, other: string): number => names.compare(one, other);
