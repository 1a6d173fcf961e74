/** A button that opens a list of what can be taken along: arrows and letters move in it, Enter takes, Escape closes. */
import { Fragment } from "react";
import {
  Button,
  Header,
  Menu,
  MenuItem,
  MenuSection,
  MenuTrigger,
  Popover,
  Separator,
  Text,
} from "react-aria-components";
import styles from "./out.module.css";

export interface OutItem {
  readonly id: string;
  /** "MIDI file" */
  readonly name: string;
  /** What it is good for, in a few words. */
  readonly remark?: string;
  /** The key that does it without the list, as printed on it. */
  readonly keyCap?: string;
  readonly act: () => void;
}

export interface OutSection {
  readonly heading: string;
  readonly items: readonly OutItem[];
}

export interface OutMenuProps {
  readonly label: string;
  /** Small and grey under a figure, or a push button among others. */
  readonly weight: "small" | "plain";
  readonly sections: readonly OutSection[];
  readonly isOpen?: boolean;
  readonly onOpenChange?: (isOpen: boolean) => void;
}

export function OutMenu({ label, weight, sections, isOpen, onOpenChange }: OutMenuProps) {
  const items = sections.flatMap((section) => section.items);
  const opening = { ...(isOpen === undefined ? {} : { isOpen }), ...(onOpenChange ? { onOpenChange } : {}) };
  return (
    <MenuTrigger {...opening}>
      <Button className={`${styles.open} ${styles[weight]}`}>{label}</Button>
      <Popover className={styles.popover ?? ""} offset={2}>
        <Menu className={styles.list ?? ""} onAction={(key) => items.find(({ id }) => id === key)?.act()}>
          {sections.map((section, index) => (
            <Fragment key={section.heading}>
              {index === 0 ? null : <Separator className={styles.line ?? ""} />}
              <MenuSection>
                <Header className={styles.heading ?? ""}>{section.heading}</Header>
                {section.items.map((item) => (
                  <Item key={item.id} {...item} />
                ))}
              </MenuSection>
            </Fragment>
          ))}
        </Menu>
      </Popover>
    </MenuTrigger>
  );
}

function Item({ id, name, remark, keyCap }: OutItem) {
  return (
    <MenuItem id={id} textValue={name} className={styles.item ?? ""}>
      <Text slot="label">{name}</Text>
      {keyCap === undefined ? null : <kbd>{keyCap}</kbd>}
      {remark === undefined ? null : (
        <Text slot="description" className={styles.remark ?? ""}>
          {remark}
        </Text>
      )}
    </MenuItem>
  );
}
