export { ReportMargin, type ReportMarginProps } from "./ReportMargin.tsx";
export { ReportSheet, type ReportSheetProps } from "./ReportSheet.tsx";
export { TakeItAlong, type TakeItAlongProps } from "./TakeItAlong.tsx";
