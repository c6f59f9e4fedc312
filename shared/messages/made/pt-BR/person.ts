// Made from ../../pt-BR/person.json by `npm run messages`; change that instead.
export const personTexts = {
  "person.here": "Esta máquina",
  "person.api-token": "Token de API",
  "person.hub": "Central de automação",
};
