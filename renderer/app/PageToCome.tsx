/** What stands in a page's place while it is loaded, and where it cannot be. */
import { Component, type ReactNode } from "react";
import { Button } from "../theme/index.ts";
import { Page } from "./Page.tsx";
import styles from "./PageToCome.module.css";

/** The page's frame and name; words only where it takes longer than a turn of the page. */
export function PageToCome({ title }: { readonly title: string }) {
  return (
    <Page
      title={title}
      sub={
        <p role="status" className={styles.soon}>
          One moment: this page is being fetched.
        </p>
      }
      margin={null}
    >
      {null}
    </Page>
  );
}

/** A page that could not be fetched says so in its own place; the rest of the book goes on. */
export class PageOrTrouble extends Component<
  { readonly title: string; readonly children: ReactNode },
  { readonly trouble: unknown }
> {
  override state: { readonly trouble: unknown } = { trouble: null };

  static getDerivedStateFromError(trouble: unknown): { readonly trouble: unknown } {
    return { trouble };
  }

  override render(): ReactNode {
    const { title, children } = this.props;
    if (this.state.trouble === null) return children;
    return (
      <Page
        title={title}
        sub={
          <p role="alert">
            This page could not be shown ({String(this.state.trouble)}). What was kept is still there.
          </p>
        }
        margin={null}
      >
        <p>
          <Button weight="go" onPress={() => window.location.reload()}>
            Load the program again
          </Button>
        </p>
      </Page>
    );
  }
}
