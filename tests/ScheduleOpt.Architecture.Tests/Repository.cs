namespace ScheduleOpt.Architecture.Tests;

/// <summary>The files of the project, from wherever the tests were started.</summary>
internal static class Repository
{
    private static readonly string Root = FindRoot();

    public static string Path(params string[] parts) => System.IO.Path.Combine([Root, .. parts]);

    public static IEnumerable<string> Projects(string folder) =>
        Directory.EnumerateFiles(Path(folder), "*.csproj", SearchOption.AllDirectories);

    public static IEnumerable<string> SourceFiles(params string[] folder) =>
        Directory.EnumerateFiles(Path(folder), "*.cs", SearchOption.AllDirectories)
            .Select(f => f.Replace('\\', '/'))
            .Where(f => !f.Contains("/obj/", StringComparison.Ordinal) && !f.Contains("/bin/", StringComparison.Ordinal));

    public static string ShortName(string project) =>
        System.IO.Path.GetFileNameWithoutExtension(project.Replace('\\', '/'))["ScheduleOpt.".Length..];

    private static string FindRoot()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(System.IO.Path.Combine(folder.FullName, "ScheduleOpt.sln")))
            {
                return folder.FullName;
            }
        }

        throw new InvalidOperationException("The tests run inside the project.");
    }
}
