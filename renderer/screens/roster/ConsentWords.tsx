/**
 * What may be kept, and who agrees. Sources of the ages: Regulation (EU) 2016/679 (GDPR), Article 8 (16 years, or as low as
 * 13 by a state's own law); Children's Online Privacy Protection Rule, 16 CFR 312.2 and 312.5 (under 13, United States).
 */
export function ConsentWords() {
  return (
    <>
      <p>
        A first name or nickname is enough. No birthday, picture or voice is kept. All of it stays on this
        computer.
      </p>
      <p>
        Students are often children. Ask a guardian, and note who agreed and when: in the European Union below
        16 years, or as low as 13 where the country says so (GDPR, Article 8); in the United States below 13
        (COPPA). Local rules decide.
      </p>
    </>
  );
}
