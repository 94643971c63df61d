/** What other rooms may use of the figures: those that users have, and how a page draws them. */

export { figureHtml, figureMimeType } from "./bundle";
export { differenceEnds, differenceStretch } from "./difference-stretch";
export { type SeriesLook, seriesLook, type ThemeName } from "./look";
export { type PlotlyFigure, plotlyFigure } from "./plotly/plotly";
export * from "./public";
export { figureSchema, readFigure } from "./read-figure";
export { type ScatterOptions, scatter } from "./scatter";
