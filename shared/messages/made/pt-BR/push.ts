// Made from ../../pt-BR/push.json by `npm run messages`; change that instead.
export const pushTexts = {
  "push.acknowledge": "Marcar como visto",
  "push.done": "Marcado como visto",
  "push.not-done": "Não marcado como visto agora",
  "push.failed": "Não foi possível marcar como visto",
  "push.failed.says": "Daqui não se chega ao servidor. Toque para abrir a pilha e tente de novo.",
  "push.unreadable": "Abra as páginas para ver o que há de novo.",
};
