// Made from ../../es/push.json by `npm run messages`; change that instead.
export const pushTexts = {
  "push.acknowledge": "Dar por visto",
  "push.done": "Dado por visto",
  "push.not-done": "Ahora no se dio por visto",
  "push.failed": "No se pudo dar por visto",
  "push.failed.says": "Desde aquí no se llega al servidor. Toca para abrir la pila y prueba otra vez.",
  "push.unreadable": "Abre las páginas para ver qué hay de nuevo.",
};
