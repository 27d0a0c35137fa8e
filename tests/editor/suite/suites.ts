import './starting.suite.ts';
import './commands.suite.ts';
import './checking.suite.ts';
import './writing.suite.ts';
import './preview.suite.ts';
import './naming.suite.ts';
import './mending.suite.ts';
import './outside.suite.ts';
