// What generated classes are marked with; the JDK has had no such annotation since Java 11.
package javax.annotation;

import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;

@Retention(RetentionPolicy.SOURCE)
public @interface Generated {
    String[] value();
    String comments() default "";
    String date() default "";
}
