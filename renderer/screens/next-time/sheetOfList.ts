import type { Day, ListEntry } from "../../../engine/memory/index.ts";
import type { ListLine, Sheet } from "../../out/print/sheet.ts";
import { lessonDayWords, rowWords } from "./listWords.ts";
import type { OpenList } from "./nextTimeDesk.ts";

/** The list as the student takes it home: what to do, and what was said of it last. */
export function sheetOfList({ student, evidence, lessonDay, list }: OpenList, today: Day): Sheet {
  const lineOf = (entry: ListEntry): ListLine => {
    const { name, aspect, latest } = rowWords(entry, today, evidence.ownNames);
    return { key: entry.item, name: aspect === "" ? name : `${name}, ${aspect}`, remark: latest };
  };
  return {
    kind: "next-time",
    nickname: student.nickname,
    lessonDay: lessonDayWords(lessonDay),
    refresh: list.refresh.map(lineOf),
    fresh: list.new.map(lineOf),
  };
}
