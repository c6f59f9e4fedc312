// Made from ../../es/calendar.json by `npm run messages`; change that instead.
export const calendarTexts = {
  "calendar.turn": "Voltear: {pileName}",
  "calendar.check": "Revisar: {pileName}",
  "calendar.ready": "Probablemente lista: {pileName}",
  "calendar.called-off": "Ahora no, se calienta de forma peligrosa: {pileName}",
  "calendar.called-off.growth": "Ahora no, hay en ella un crecimiento indebido: {pileName}",
  "calendar.yours": "La dirección es tuya: quien la tenga puede leer las fechas, hasta que la renueves.",
  "calendar.yours-here": "La dirección es tuya, y solo se abre en esta máquina: pon en BRANHEARTH_PUBLIC_URL la dirección a la que llegan los teléfonos. Quien la tenga puede leer las fechas, hasta que la renueves.",
};
