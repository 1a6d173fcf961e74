import type { Student } from "../../../engine/records/index.ts";

/** A student's nickname; one of the demo studio says so. */
export function StudentName({ student }: { readonly student: Student }) {
  return (
    <>
      <b>{student.nickname}</b>
      {student.invented && <i> (invented)</i>}
    </>
  );
}
