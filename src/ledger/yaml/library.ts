/**
 * The yaml library, loaded when a text first needs it, since most are read by the plain reader: setting it up takes an
 * eighth of Node's own start where nothing is cached.
 */
export const yaml = (): typeof import('yaml') => require('yaml')
