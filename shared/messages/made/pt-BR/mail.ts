// Made from ../../pt-BR/mail.json by `npm run messages`; change that instead.
export const mailTexts = {
  "mail.foot": "As sondas sozinhas nunca dizem que uma pilha está pronta, nem que é segura. Estas mensagens não são proteção contra incêndio.",
  "mail.seen-it": "Eu vi isto",
  "mail.seen-it-by-address": "Eu vi isto (abre uma página com um só botão):",
  "mail.look": "Ver",
  "mail.look-by-address": "Ver:",
};
