import { useRest } from "../../app/route.ts";
import { useStudio } from "../../app/StudioContext.tsx";
import { useWatched } from "../../session/store.ts";
import { NewStudent } from "./NewStudent.tsx";
import { StudentList } from "./StudentList.tsx";
import { StudentPage } from "./StudentPage.tsx";

/** Roster: the studio's students and groups. */
export function RosterScreen() {
  const { roster } = useStudio();
  useWatched(roster);
  const [which] = useRest();
  if (which === "new") return <NewStudent />;
  const student = which === undefined ? undefined : roster.student(which);
  return student ? <StudentPage key={student.id} student={student} /> : <StudentList />;
}
