namespace ScheduleOpt.Benchmarks;

/// <summary>The folder that holds the solution, from wherever the program was started.</summary>
internal static class RepositoryRoot
{
    public static string Find()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "ScheduleOpt.sln")))
            {
                return folder.FullName;
            }
        }

        throw new InvalidOperationException("Run it from inside the project.");
    }
}
