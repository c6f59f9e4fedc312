// Made from ../../pt-BR/password.json by `npm run messages`; change that instead.
export const passwordTexts = {
  "password.too-short": "A senha precisa ter no mínimo {leastCount, plural, one {# caractere} other {# caracteres}}; quatro palavras seguidas servem bem.",
  "password.too-long": "A senha precisa ter no máximo {mostCount, plural, one {# caractere} other {# caracteres}}.",
  "password.few-characters": "A senha repete os mesmos poucos caracteres: use mais caracteres diferentes.",
  "password.repeats": "A senha se repete: escolha uma que não se repita.",
  "password.guessable": "A senha é fácil demais de adivinhar: é feita de palavras comuns, nomes ou teclas em sequência; acrescente palavras suas.",
};
