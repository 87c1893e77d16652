using ScheduleOpt.Interchange;

namespace ScheduleOpt.Cli;

/// <summary>Writes the files that options name.</summary>
internal static class OutputFile
{
    /// <summary>Writes a file, in place of one that is there.</summary>
    /// <returns>Why it could not be written; none where it was.</returns>
    public static Fault? Write(string path, string option, byte[] content)
    {
        try
        {
            File.WriteAllBytes(path, content);
            return null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            return new Fault(option, $"Can't be written: {e.Message}", path);
        }
    }
}
