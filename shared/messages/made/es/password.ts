// Made from ../../es/password.json by `npm run messages`; change that instead.
export const passwordTexts = {
  "password.too-short": "La contraseña debe tener al menos {leastCount, plural, one {# carácter} other {# caracteres}}; cuatro palabras seguidas van bien.",
  "password.too-long": "La contraseña debe tener como máximo {mostCount, plural, one {# carácter} other {# caracteres}}.",
  "password.few-characters": "La contraseña repite los mismos pocos caracteres: usa más distintos.",
  "password.repeats": "La contraseña se repite: elige una que no lo haga.",
  "password.guessable": "La contraseña es demasiado fácil de adivinar: son palabras corrientes, nombres o teclas seguidas; añade palabras tuyas.",
};
