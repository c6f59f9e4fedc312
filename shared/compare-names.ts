/** Names that people gave, as people count: 2 before 10. Negative where `one` comes first. */
export const compareNames = (one: string, other: string): number => one.localeCompare(other, 'en', { numeric: true });
