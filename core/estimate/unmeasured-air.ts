/** Air humidity where nobody measures it, and its standard deviation [%RH]; our own choice, no source. */
export const unmeasuredHumidityPct = 62;
export const unmeasuredHumiditySdPct = 18;
