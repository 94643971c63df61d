export function ownWidth(image: unknown): number;
export function textsOutsidePictures(): string[];
export function cutTexts(): string[];
export function wrongTextsOfLiveFigures(): string[];
