export { EngravedPaths } from "./EngravedPaths.tsx";
export { HeardStaff } from "./HeardStaff.tsx";
export { LiveStaff } from "./LiveStaff.tsx";
export { Staff, type StaffProps } from "./Staff.tsx";
export { sectionWords } from "./sectionWords.ts";
export { WrittenOverHeard } from "./WrittenOverHeard.tsx";
export { writtenStaff } from "./writtenStaff.ts";
