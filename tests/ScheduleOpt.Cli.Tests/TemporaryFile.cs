namespace ScheduleOpt.Cli.Tests;

/// <summary>A file that is gone when the test is over.</summary>
internal sealed class TemporaryFile : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("scheduleopt").FullName;

    public TemporaryFile(string name, string text)
    {
        Path = System.IO.Path.Combine(folder, name);
        File.WriteAllText(Path, text);
    }

    public string Path { get; }

    public void Dispose() => Directory.Delete(folder, recursive: true);
}
