using System.Text;
using ScheduleOpt.Interchange;

namespace ScheduleOpt.Cli.Inputs;

/// <summary>Reads the files that options name; <c>-</c> is the standard input.</summary>
internal static class InputText
{
    private const int MostBytes = 64 * 1024 * 1024;
    private static readonly UTF8Encoding Strict = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    /// <summary>Reads a file, or says why it can't be read.</summary>
    /// <param name="path">Its path, or <c>-</c>.</param>
    /// <param name="field">The option that names it.</param>
    /// <param name="standardInput">What <c>-</c> reads.</param>
    public static Reading<string> Read(string path, string field, TextReader standardInput)
    {
        if (path == "-")
        {
            return standardInput.ReadToEnd();
        }

        if (Directory.Exists(path))
        {
            return Reading<string>.Refused(new Fault(field, "Must name a file; this is a folder.", path));
        }

        if (!File.Exists(path))
        {
            return Reading<string>.Refused(new Fault(field, "There is no such file. Give the path of one, from the folder you are in.", path));
        }

        try
        {
            return new FileInfo(path).Length > MostBytes
                ? Reading<string>.Refused(new Fault(field, "May have at most 64 MiB.", path))
                : File.ReadAllText(path, Strict);
        }
        catch (DecoderFallbackException)
        {
            return Reading<string>.Refused(new Fault(field, "Must be text in UTF-8; it holds bytes that are not.", path));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return Reading<string>.Refused(new Fault(field, $"Can't be read: {e.Message}", path));
        }
    }
}
