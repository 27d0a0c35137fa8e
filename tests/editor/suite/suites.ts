import './starting.suite.ts';
import './commands.suite.ts';
