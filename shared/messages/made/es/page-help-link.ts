// Made from ../../es/page-help-link.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageHelpLinkParams } from '../params/page-help-link.ts';

export const pageHelpLinkTexts: PageTexts<PageHelpLinkParams> = {
  "page-help-link.to": ["Ayuda: ",["chapterText"]],
  "page-help-link.all": "todos los capítulos",
  "page-help-link.key": "Qué significan colores, puntos y marcas",
  "page-help-link.chapter.first-steps": "Primeros pasos",
  "page-help-link.chapter.probes": "Termómetros y sondas",
  "page-help-link.chapter.probe": "Construir una sonda",
  "page-help-link.chapter.squeeze": "Apretar, oler y mirar",
  "page-help-link.chapter.signs": "Colores, puntos y marcas",
  "page-help-link.chapter.stages": "Las etapas y sus palabras",
  "page-help-link.chapter.warnings": "Los avisos, uno por uno",
  "page-help-link.chapter.notifications": "Alarmas y notificaciones",
  "page-help-link.chapter.chart": "Leer la gráfica",
  "page-help-link.chapter.device": "Cuidar las sondas",
  "page-help-link.chapter.cautions": "Cuidados",
  "page-help-link.chapter.questions": "Preguntas y fallos",
};
