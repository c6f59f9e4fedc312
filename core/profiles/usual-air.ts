/** Air beside a bed where nobody measured or foretold any [°C]: a mild day in shade; common practice, no source. */
export const usualAirC = 20;
