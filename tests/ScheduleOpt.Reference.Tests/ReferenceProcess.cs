using System.Diagnostics;
using System.Text.Json;

namespace ScheduleOpt.Reference.Tests;

/// <summary>The reference kept alive: one request a line in, one answer a line out.</summary>
internal sealed class ReferenceProcess : IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(2);
    private readonly Process process;
    private readonly Task<string> complaints;

    private ReferenceProcess(Process process)
    {
        this.process = process;
        complaints = process.StandardError.ReadToEndAsync();
    }

    /// <summary>Starts it; skips the test where Python or scipy is missing.</summary>
    public static ReferenceProcess StartOrSkip()
    {
        var start = PythonReference.Start(PythonReference.InterpreterOrSkip(), "charging_reference.py", "--serve");
        return new(Process.Start(start) ?? throw new InvalidOperationException("The reference did not start."));
    }

    /// <summary>The optimum of a request, or of a deliberately wrong model of it.</summary>
    public ReferenceAnswer Answer(string requestJson, string? mutant = null)
    {
        var line = mutant is null ? requestJson : $$"""{"request": {{requestJson}}, "mutant": {{JsonSerializer.Serialize(mutant)}}}""";
        process.StandardInput.WriteLine(line.ReplaceLineEndings(" "));
        process.StandardInput.Flush();
        var answered = process.StandardOutput.ReadLineAsync();
        if (!answered.Wait(Patience) || answered.Result is not { } text)
        {
            process.Kill();
            throw new InvalidOperationException($"The reference gave no answer. {complaints.GetAwaiter().GetResult()}");
        }

        return ReferenceAnswer.Read(text);
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        process.StandardInput.Close();
        if (!process.WaitForExit(5000))
        {
            process.Kill();
        }

        process.Dispose();
    }
}
