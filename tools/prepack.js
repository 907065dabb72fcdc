// Run by npm before it packs or publishes: a package of a bare clone would be one without dist.
import { setUp } from './setup.js';

setUp();
