namespace ScheduleOpt.TestKit;

/// <summary>A file of the project, from wherever the tests were started.</summary>
public static class RepositoryFile
{
    public static string PathOf(params string[] parts)
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "ScheduleOpt.sln")))
            {
                return Path.Combine([folder.FullName, .. parts]);
            }
        }

        throw new InvalidOperationException("The tests run inside the project.");
    }

    public static string Read(params string[] parts) => File.ReadAllText(PathOf(parts)).ReplaceLineEndings("\n");
}
