package bellwire.app.visit;

import bellwire.app.job.JobFileException;
import bellwire.app.job.JobRecords;

/** Something to read from a job file, or to put into it. */
@FunctionalInterface
public interface JobTask<T> {
  T run(JobRecords records) throws JobFileException;
}
