/**
 * The MusicXML schema as a check: what is wrong with a document, or nothing.
 * Source: the W3C XML Schema of MusicXML 3.0 (beside the tests), and of MusicXML 4.0 the element `swing` in `sound`.
 */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { memoryPages, validateXML } from "xmllint-wasm";

const FOLDER = join(import.meta.dirname, "../../fixtures/musicxml");

/** MusicXML 4.0: what `swing` holds. */
const SWING = `
  <xs:simpleType name="swing-type-value">
    <xs:restriction base="note-type-value">
      <xs:enumeration value="16th"/>
      <xs:enumeration value="eighth"/>
    </xs:restriction>
  </xs:simpleType>
  <xs:complexType name="swing">
    <xs:sequence>
      <xs:choice>
        <xs:element name="straight" type="empty"/>
        <xs:sequence>
          <xs:element name="first" type="xs:positiveInteger"/>
          <xs:element name="second" type="xs:positiveInteger"/>
          <xs:element name="swing-type" type="swing-type-value" minOccurs="0"/>
        </xs:sequence>
      </xs:choice>
      <xs:element name="swing-style" type="xs:string" minOccurs="0"/>
    </xs:sequence>
  </xs:complexType>
`;

function schema(): string {
  const text = readFileSync(join(FOLDER, "musicxml.xsd"), "utf8");
  const inSound = `<xs:element name="play" type="play" minOccurs="0"/>
			</xs:sequence>
			<xs:element name="offset" type="offset" minOccurs="0"/>`;
  const whole = text
    .replaceAll("\r\n", "\n")
    .replace("http://www.musicxml.org/xsd/xml.xsd", "xml.xsd")
    .replace("http://www.musicxml.org/xsd/xlink.xsd", "xlink.xsd");
  if (whole.split(inSound).length !== 2) throw new Error("The schema's sound is not as it was.");
  return whole
    .replace(
      inSound,
      inSound.replace(
        '<xs:element name="offset"',
        '<xs:element name="swing" type="swing" minOccurs="0"/>\n\t\t\t<xs:element name="offset"',
      ),
    )
    .replace("</xs:schema>", `${SWING}</xs:schema>`);
}

/** What the schema says against these documents, by name; empty when all are valid. */
export async function schemaFaults(documents: ReadonlyMap<string, string>): Promise<readonly string[]> {
  const { valid, errors } = await validateXML({
    // The document type names a file in the network; nothing is fetched.
    xml: [...documents].map(([fileName, contents]) => ({
      fileName: `${fileName}.musicxml`,
      contents: contents.replace(/<!DOCTYPE[^>]*>\n/, ""),
    })),
    schema: [{ fileName: "musicxml.xsd", contents: schema() }],
    preload: ["xml.xsd", "xlink.xsd"].map((fileName) => ({
      fileName,
      contents: readFileSync(join(FOLDER, fileName), "utf8"),
    })),
    initialMemoryPages: 64 * memoryPages.MiB,
    maxMemoryPages: 512 * memoryPages.MiB,
  });
  const said = errors.map(
    ({ message, loc }) => `${loc?.fileName ?? ""} line ${loc?.lineNumber ?? "?"}: ${message}`,
  );
  return valid || said.length > 0 ? said : ["not valid, and no reason given"];
}
