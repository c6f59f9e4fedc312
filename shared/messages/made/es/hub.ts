// Made from ../../es/hub.json by `npm run messages`; change that instead.
export const hubTexts = {
  "hub.temperature": "{position, select, core {Temperatura en el centro} top {Temperatura arriba} base {Temperatura de la base} edge {Temperatura del borde} air {Temperatura del aire} other {}}",
  "hub.moisture": "Humedad según el balance de agua",
  "hub.condition": "Estado",
  "hub.next": "Qué hacer ahora",
  "hub.warning": "Aviso más grave",
  "hub.last-heard": "Última lectura",
  "hub.acknowledge": "Dar por vistos los avisos",
};
