// Made from ../../es/mail.json by `npm run messages`; change that instead.
export const mailTexts = {
  "mail.foot": "Las sondas por sí solas nunca dicen que una pila está lista ni que es segura. Estos mensajes no son protección contra incendios.",
  "mail.seen-it": "Lo he visto",
  "mail.seen-it-by-address": "Lo he visto (abre una página con un solo botón):",
  "mail.look": "Ver qué pasa",
  "mail.look-by-address": "Ver qué pasa:",
};
