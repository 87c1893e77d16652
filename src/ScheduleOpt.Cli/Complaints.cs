using System.CommandLine;
using ScheduleOpt.Interchange;

namespace ScheduleOpt.Cli;

/// <summary>Says on the error stream what is wrong with the input, and what to do next.</summary>
internal static class Complaints
{
    /// <summary>Writes faults; each pointer is the name of an option, or a file and a place in it.</summary>
    public static int Write(TextWriter error, IEnumerable<Fault> faults, string verb)
    {
        foreach (var fault in faults)
        {
            error.WriteLine($"error: {fault}");
        }

        WriteAdvice(error, verb);
        return CommandLine.BadInput;
    }

    /// <summary>Writes what the reader of the arguments found.</summary>
    public static void Write(TextWriter error, IEnumerable<string> sentences, Command command)
    {
        foreach (var sentence in sentences)
        {
            error.WriteLine($"error: {sentence}");
        }

        WriteAdvice(error, command is RootCommand ? "" : command.Name);
    }

    /// <summary>Writes what is worth knowing about the input and is no fault.</summary>
    public static void Note(TextWriter error, IEnumerable<string> notes)
    {
        foreach (var note in notes)
        {
            error.WriteLine($"note: {note}");
        }
    }

    private static void WriteAdvice(TextWriter error, string verb) =>
        error.WriteLine($"Mend it and run it again; 'scheduleopt {(verb.Length > 0 ? verb + " " : "")}--help' explains each option and has an example.");
}
