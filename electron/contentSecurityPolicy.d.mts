/** The value of the Content-Security-Policy header of every page. */
export declare const contentSecurityPolicy: string;
